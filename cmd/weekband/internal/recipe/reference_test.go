package recipe

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the table of keys into README.md")

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

// The reference tells of the keys the decoder looks for, no more and no fewer,
// each once and with all that one wants to know.
func TestReferenceListsTheKeys(t *testing.T) {
	doc := &document{name: "x", keys: map[string]bool{}}
	if _, err := decode([]byte(everything), doc); err != nil {
		t.Fatal(err)
	}
	listed := map[string]bool{}
	for _, k := range Keys() {
		if k.Topic == "" || k.Value == "" || k.Default == "" || !strings.HasSuffix(k.Meaning, ".") {
			t.Errorf("the reference does not tell enough of the key %+v", k)
		}
		if listed[k.Path] || !doc.keys[k.Path] {
			t.Errorf("the reference lists %s twice, or no recipe may have it", k.Path)
		}
		listed[k.Path] = true
	}
	mere := []string{"normals", "grid", "windows", "regions", "insets", "earlier"} // only hold others
	for key := range doc.keys {
		if !listed[key] && !slices.Contains(mere, key) {
			t.Errorf("the reference does not list the key %s", key)
		}
	}
}

// literal is a word or value that a text quotes.
var literal = regexp.MustCompile("`([^`]+)`")

// defaultValue is a default that is a value, as against one in words.
var defaultValue = regexp.MustCompile("^`([^`]+)`( \\(|$)")

// tree is a mapping whose values are YAML text or trees; the value of a key that
// ends in [] stands alone in a list.
type tree map[string]any

// with returns a recipe of little more than what is required and a key.
func with(path, value string) string {
	top := tree{
		"title": "x", "edition": "2027", "normals": tree{"files": "x"},
		"windows[]": tree{"id": "x", "title": "x", "threshold": "55 F"},
	}
	parts := strings.Split(path, ".")
	in := top
	for _, key := range parts[:len(parts)-1] {
		if in[key] == nil {
			in[key] = map[string]tree{
				"seeding": {"date": "09-01"}, "regions[]": {"file": "x"}, "insets[]": {"title": "x", "box": "[1, 2, 3, 4]"},
				"earlier[]": {"edition": "2025", "published": "2024-12-03"}, "soil": {}, "grid": {}, "second": {},
			}[key]
		}
		in = in[key].(tree)
	}
	if in[parts[len(parts)-1]] = value; path == "worth_of" {
		top["maps"] = "worth"
	}
	return top.text()
}

func (m tree) text() string {
	var fields []string
	for _, key := range slices.Sorted(maps.Keys(m)) {
		text, inner := "", m[key]
		if below, ok := inner.(tree); ok {
			text = below.text()
		} else {
			text = inner.(string)
		}
		name, list := strings.CutSuffix(key, "[]")
		if list {
			text = "[" + text + "]"
		}
		fields = append(fields, name+": "+text)
	}
	return "{" + strings.Join(fields, ", ") + "}"
}

// Every default that is a literal value is what a recipe without the key means,
// and every value that the reference shows is one that a recipe may have.
func TestReferenceTellsDefaultsAndValues(t *testing.T) {
	settings := func(text string) map[string]string {
		r, err := Decode([]byte(text), "x")
		if err != nil {
			t.Fatalf("%s\n%v", text, err)
		}
		return r.Settings()
	}
	defaults, values := 0, 0
	for _, k := range Keys() {
		if whole := defaultValue.FindStringSubmatch(k.Default); whole != nil {
			defaults++
			without := settings(with("title", "x"))
			if strings.Contains(k.Path, "seeding") {
				without = settings(with("windows[].seeding", "{date: 09-01}"))
			}
			if got := settings(with(k.Path, whole[1])); !maps.Equal(got, without) {
				t.Errorf("%s: %s is no default: with it a recipe is\n%v\nwithout\n%v", k.Path, whole[1], got, without)
			}
		}
		for _, m := range literal.FindAllStringSubmatch(k.Value, -1) {
			if strings.Contains(m[1], "west") || strings.Contains(m[1], "…") {
				continue // a pattern
			}
			values++
			settings(with(k.Path, m[1])) // fails where that is no recipe
		}
	}
	if defaults < 15 || values < 40 {
		t.Errorf("compared %d defaults and %d values", defaults, values)
	}
}

// The example is sound; cmd/weekband builds it.
func TestExampleDecodes(t *testing.T) {
	r, err := Decode([]byte(Example), "example.yaml")
	if err != nil || len(r.Windows) != 1 {
		t.Errorf("%+v, %v", r, err)
	}
}

// README.md has the reference as a table, to the word; -update writes it.
func TestReadmeHasTheReference(t *testing.T) {
	const path = "../../../../README.md"
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	b.WriteString("| key | value | default | meaning |\n|---|---|---|---|\n")
	for _, k := range Keys() {
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", k.Path, k.Value, k.Default, k.Meaning)
	}
	section := regexp.MustCompile(`(?s)(\n## Recipe\n.*?\n\n)(\|.*?\|\n)(\n)`)
	found := section.FindSubmatch(text)
	if found == nil {
		t.Fatal("README.md has no table under Recipe")
	}
	if string(found[2]) == b.String() {
		return
	}
	if !*update {
		t.Fatal("README.md's table of keys differs from reference.txt; go test ./cmd/weekband/internal/recipe -run Readme -update writes it")
	}
	at := section.FindSubmatchIndex(text)
	if err := os.WriteFile(path, slices.Concat(text[:at[4]], []byte(b.String()), text[at[5]:]), 0o644); err != nil {
		t.Fatal(err)
	}
}
