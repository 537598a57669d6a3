package regions

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// misfit finds what in nested lists of numbers is not as deep as wanted, or no
// number, and says so: `coordinates[0][3][1] is "50"; want a number`. depth is
// how many lists a number lies in. It returns "" when nothing is wrong.
func misfit(raw json.RawMessage, name string, depth int) string {
	if len(raw) == 0 {
		return "there is no member \"" + name + "\""
	}
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.UseNumber()
	var path []int // the ordinal reached in each open list
	where := func() string {
		var b strings.Builder
		b.WriteString(name)
		for _, i := range path {
			fmt.Fprintf(&b, "[%d]", i)
		}
		return b.String()
	}
	for {
		token, err := dec.Token()
		if err != nil {
			return ""
		}
		switch t := token.(type) {
		case json.Delim:
			switch {
			case t == ']':
				path = path[:len(path)-1]
			case t == '[' && len(path) < depth:
				path = append(path, 0)
				continue
			case t == '[':
				return where() + " is a list; want a number: the lists lie too deep"
			default:
				return where() + " is an object; want " + wanted(len(path), depth)
			}
		case json.Number:
			if len(path) < depth {
				return fmt.Sprintf("%s is %s; want a list: the lists lie not deep enough", where(), excerpt([]byte(t)))
			}
			if _, err := strconv.ParseFloat(string(t), 64); err != nil {
				return fmt.Sprintf("%s is %s; want degrees", where(), excerpt([]byte(t)))
			}
		default:
			text, err := json.Marshal(t)
			if err != nil {
				return where() + " is no number"
			}
			return fmt.Sprintf("%s is %s; want %s", where(), excerpt(text), wanted(len(path), depth))
		}
		if len(path) == 0 {
			return ""
		}
		path[len(path)-1]++
	}
}

func wanted(at, depth int) string {
	if at < depth {
		return "a list"
	}
	return "a number"
}
