package recipe

import (
	"os"
	"regexp"
	"strings"
	"testing"
)

// everything makes the decoder look for every key there is.
const everything = `
title: x
edition: 2027
normals: {files: x}
soil: {depth: 4 in}
grid: {cell: 4 km}
windows: [{id: x, title: x, threshold: 55 F, second: {below: 50 %}, seeding: {date: 09-01}}]
regions: [{file: x}]
insets: [{title: x, box: [1, 2, 3, 4]}]
earlier: [{edition: 2026, published: 2025-12-03}]
`

// The table of keys in README.md names the keys the decoder looks for, no
// more and no fewer.
func TestReadmeListsTheKeys(t *testing.T) {
	doc := &document{name: "x", keys: map[string]bool{}}
	if _, err := decode([]byte(everything), doc); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile("../../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, table, _ := strings.Cut(string(text), "### Recipe")
	table, _, _ = strings.Cut(table, "###")
	listed := map[string]bool{}
	cell := regexp.MustCompile(`(?m)^\| (.+?) \|`)
	name := regexp.MustCompile("`([^`]+)`")
	for _, row := range cell.FindAllStringSubmatch(table, -1) {
		parent := ""
		for _, m := range name.FindAllStringSubmatch(row[1], -1) {
			key := m[1]
			if rest, short := strings.CutPrefix(key, "."); short {
				key = parent + "." + rest
			} else if at := strings.LastIndex(key, "."); at >= 0 {
				parent = key[:at]
			}
			listed[key] = true
		}
	}
	sections := map[string]bool{"grid": true, "normals": true, "windows": true, "regions": true, "insets": true, "earlier": true}
	for key := range doc.keys {
		if !listed[key] && !sections[key] {
			t.Errorf("README.md does not list the key %s", key)
		}
	}
	for key := range listed {
		if !doc.keys[key] {
			t.Errorf("README.md lists %s, which no recipe may have", key)
		}
	}
}
