package recipe

import (
	_ "embed"
	"strings"
)

// Example is a whole recipe for the files of the embedded example.
//
//go:embed example.yaml
var Example string

//go:embed reference.txt
var reference string

// Key is what a recipe may say under one key. Literal words stand between
// backticks in the texts.
type Key struct {
	Path    string // windows[].threshold: brackets stand for each of a list
	Topic   string // heading under which it is told
	Value   string // kind of value
	Default string // or that the key is required
	Meaning string
}

// Keys returns every key that a recipe may have, in the order in which one
// writes them.
func Keys() []Key {
	var list []Key
	topic := ""
	for record := range strings.SplitSeq(strings.TrimSpace(reference), "\n\n") {
		if heading, ok := strings.CutPrefix(record, "# "); ok {
			topic = heading
			continue
		}
		k := Key{Topic: topic}
		var meaning []string
		for i, line := range strings.Split(record, "\n") {
			value, isValue := strings.CutPrefix(line, "value: ")
			fallback, isDefault := strings.CutPrefix(line, "default: ")
			switch {
			case i == 0:
				k.Path = line
			case isValue:
				k.Value = value
			case isDefault:
				k.Default = fallback
			default:
				meaning = append(meaning, line)
			}
		}
		k.Meaning = strings.Join(meaning, " ")
		list = append(list, k)
	}
	return list
}
