package polygons

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
	var at path
	for {
		token, err := dec.Token()
		if err != nil {
			return ""
		}
		if words := at.misfit(token, depth); words != "" {
			return name + at.String() + " is " + words
		}
		switch token {
		case json.Delim('['):
			at = append(at, 0)
			continue
		case json.Delim(']'):
			at = at[:len(at)-1]
		}
		if len(at) == 0 {
			return ""
		}
		at[len(at)-1]++
	}
}

// path is a place in nested lists: the ordinal reached in each that is open.
type path []int

// String writes the place, "[0][3][1]".
func (p path) String() string {
	var b strings.Builder
	for _, i := range p {
		fmt.Fprintf(&b, "[%d]", i)
	}
	return b.String()
}

// misfit says what a token at the place is where it should be another.
func (p path) misfit(token json.Token, depth int) string {
	want := "a number"
	if len(p) < depth {
		want = "a list"
	}
	switch t := token.(type) {
	case json.Delim:
		switch {
		case t == '[' && len(p) == depth:
			return "a list; want a number: the lists lie too deep"
		case t == '{':
			return "an object; want " + want
		}
		return ""
	case json.Number:
		if len(p) < depth {
			return excerpt([]byte(t)) + "; want a list: the lists lie not deep enough"
		}
		if _, err := strconv.ParseFloat(string(t), 64); err != nil {
			return excerpt([]byte(t)) + "; want degrees"
		}
		return ""
	}
	text, err := json.Marshal(token)
	if err != nil { // a text, true, false or null
		panic("regions: " + err.Error())
	}
	return excerpt(text) + "; want " + want
}
