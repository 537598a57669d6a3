package polygons

import (
	"bytes"
	"encoding/json"
	"strconv"
	"strings"

	"weekband/regions/naming"
)

// kindOf names a JSON value that is no text nor number, "" for one that is and
// for null.
func kindOf(raw json.RawMessage) string {
	switch {
	case bytes.HasPrefix(raw, []byte("{")):
		return "an object"
	case bytes.HasPrefix(raw, []byte("[")):
		return "a list"
	case bytes.Equal(raw, []byte("true")), bytes.Equal(raw, []byte("false")):
		return string(raw)
	}
	return ""
}

// given reports whether a member is there and not null.
func given(raw json.RawMessage) bool { return len(raw) > 0 && !bytes.Equal(raw, []byte("null")) }

// plain writes a JSON value as text: strings without blanks around them,
// numbers in full, "" for anything else. Whole numbers keep all their digits.
func plain(raw json.RawMessage) string {
	if len(raw) == 0 {
		return ""
	}
	switch c := raw[0]; {
	case c == '"':
		var text string
		if json.Unmarshal(raw, &text) == nil {
			return strings.TrimSpace(text)
		}
	case c == '-' || c >= '0' && c <= '9':
		if !bytes.ContainsAny(raw, ".eE") {
			return string(raw)
		}
		if v, err := strconv.ParseFloat(string(raw), 64); err == nil {
			return strconv.FormatFloat(v, 'f', -1, 64)
		}
	}
	return ""
}

// listed writes keys one after the other, for messages.
func listed(keys []string) string { return naming.Plain(strings.Join(keys, ", ")) }
