package polygons

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
)

// unmarshal decodes a JSON document and says where it went wrong.
func unmarshal(data []byte, into any, name string) error {
	err := json.Unmarshal(data, into)
	if err == nil {
		return nil
	}
	const want = "want GeoJSON or TopoJSON"
	if syntax, ok := errors.AsType[*json.SyntaxError](err); ok {
		place := fmt.Sprintf("%s:%s", name, lineAt(data, syntax.Offset))
		after := data[min(max(syntax.Offset-1, 0), int64(len(data))):]
		switch complaint := syntax.Error(); {
		case len(bytes.TrimSpace(data)) == 0:
			return fmt.Errorf("%s: is empty; %s", name, want)
		case complaint == "unexpected end of JSON input":
			return fmt.Errorf("%s: ends in the middle, after %q: was it cut off? Fetch or write the file again", place, excerptEnd(data))
		case strings.HasSuffix(complaint, "after top-level value"):
			return fmt.Errorf("%s: %q stands after the end of the document; remove it, or put all features into one FeatureCollection", place, excerpt(after))
		default:
			return fmt.Errorf("%s: %s; %s", place, inWords(complaint, after), want)
		}
	}
	if kind, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		return fmt.Errorf("%s:%s: the member %q is of the wrong kind: %s; %s", name, lineAt(data, kind.Offset), strings.ToLower(kind.Field), kind.Value, want)
	}
	return fmt.Errorf("%s: %s; %s", name, strings.TrimPrefix(err.Error(), "json: "), want)
}

// inWords explains what is wrong with JSON that goes on as data.
func inWords(complaint string, data []byte) string {
	for _, word := range []string{"NaN", "-NaN", "nan", "Infinity", "-Infinity", "inf", "-inf", "Inf", "-Inf"} {
		if bytes.HasPrefix(data, []byte(word)) || strings.HasPrefix(word, "-") && bytes.HasPrefix(data, []byte(word[1:])) {
			return fmt.Sprintf("%s is no number in JSON (RFC 8259, 6); leave out what is not known", word)
		}
	}
	if strings.HasSuffix(complaint, "exceeded max depth") {
		return "lists within lists, ten thousand deep"
	}
	return complaint
}

// lineAt returns the line and column of the byte before an offset.
func lineAt(data []byte, offset int64) string {
	before := data[:min(max(offset, 0), int64(len(data)))]
	col := len(before) - bytes.LastIndexByte(before, '\n') - 1
	return fmt.Sprintf("%d:%d", bytes.Count(before, []byte("\n"))+1, max(col, 1))
}

// excerpt returns the beginning of a text, for messages.
func excerpt(data []byte) string {
	const most = 24
	if len(data) > most {
		return string(bytes.ToValidUTF8(data[:most], nil)) + "…"
	}
	return string(data)
}

func excerptEnd(data []byte) string {
	const most = 24
	data = bytes.TrimRight(data, " \t\r\n")
	if len(data) > most {
		return "…" + string(bytes.ToValidUTF8(data[len(data)-most:], nil))
	}
	return string(data)
}

// collected returns a document whose features follow each other, one to a line
// or each after a record separator (RFC 8142), as one FeatureCollection. ok is
// false for anything else.
func collected(data []byte) (whole []byte, features int, ok bool) {
	data = bytes.ReplaceAll(data, []byte("\x1e"), []byte(" ")) // none may stand in a JSON text
	dec := json.NewDecoder(bytes.NewReader(data))
	whole = append(whole, `{"type":"FeatureCollection","features":[`...)
	for {
		var one json.RawMessage
		err := dec.Decode(&one)
		if errors.Is(err, io.EOF) {
			break
		}
		var head struct{ Type string }
		if err != nil || json.Unmarshal(one, &head) != nil || head.Type != "Feature" {
			return nil, 0, false
		}
		if features++; features > 1 {
			whole = append(whole, ",\n"...)
		}
		whole = append(whole, one...)
	}
	return append(whole, "]}"...), features, features > 1
}

// repeated returns the first key that stands twice in one object of a valid
// JSON text, its offset, and how many there are.
func repeated(data []byte) (key string, at, times int) {
	var open []map[string]bool // of objects; nil for lists
	isKey := false
	for i := 0; i < len(data); i++ {
		switch data[i] {
		case '{':
			open, isKey = append(open, map[string]bool{}), true
		case '[':
			open, isKey = append(open, nil), false
		case '}', ']':
			open, isKey = open[:len(open)-1], false
		case ',':
			isKey = open[len(open)-1] != nil
		case '"':
			from := i + 1
			for i++; data[i] != '"'; i++ {
				if data[i] == '\\' {
					i++
				}
			}
			if !isKey {
				continue
			}
			isKey = false
			text, keys := string(data[from:i]), open[len(open)-1]
			if keys[text] {
				if times++; times == 1 {
					key, at = text, from
				}
			}
			keys[text] = true
		}
	}
	return key, at, times
}
