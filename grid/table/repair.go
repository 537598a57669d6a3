package table

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
)

// headBytes is how far the first line is looked for to tell what separates
// columns.
const headBytes = 1 << 16

// separator tells what stands between the columns: a semicolon or a tab only
// when the first line then has all columns that are needed, and not so with
// commas.
func separator(head []byte, form Form) rune {
	for line := range bytes.Lines(head) {
		if len(bytes.TrimSpace(line)) == 0 || form.Remarks && line[0] == '#' {
			continue
		}
		for _, comma := range []rune{',', ';', '\t'} {
			if hasAll(string(line), comma, form.Need) {
				return comma
			}
		}
		break
	}
	return ','
}

// hasAll reports whether a line, cut at comma, names all columns.
func hasAll(line string, comma rune, need []string) bool {
	r := csv.NewReader(strings.NewReader(line))
	r.Comma = comma
	names, err := r.Read()
	if err != nil {
		return false
	}
	for i := range names {
		names[i] = strings.ToLower(strings.TrimSpace(names[i]))
	}
	return !slices.ContainsFunc(need, func(name string) bool { return !slices.Contains(names, name) })
}

// decimal is which decimal marks a table with semicolons has shown so far.
type decimal struct {
	mark  byte // of the first number that has one
	line  int
	text  string // as it was
	count int    // decimal commas that were read as points
}

// Decimal is Text for a field that holds a number or begins with one. In a
// table with semicolons between the columns a decimal comma becomes a point;
// where both stand in one table what is meant cannot be told, which is noted.
func (t *Table) Decimal(c Column) string {
	text := t.Text(c)
	if t.r.Comma != ';' {
		return text
	}
	mended, comma := mend(text)
	mark := byte('.')
	switch {
	case comma:
		mark = ','
	case !strings.Contains(text, ".") || text[0] > '9':
		return text
	}
	d := &t.decimal
	if d.mark == 0 {
		d.mark, d.line, d.text = mark, t.line, strings.Clone(text)
	}
	if d.mark != mark {
		t.Fault("%s %q: %q on line %d is written the other way; want decimal commas or decimal points in the whole table", t.title(c), clip(text, 80), clip(d.text, 80), d.line)
		return mended // read on: the table is refused in any case
	}
	if comma {
		d.count++
	}
	return mended
}

// mend writes a point for the comma of a number that text begins with; ok is
// false for any other text, such as one with two commas or a point too.
func mend(text string) (mended string, ok bool) {
	i := 0
	if i < len(text) && (text[i] == '-' || text[i] == '+') {
		i++
	}
	whole := i
	for i < len(text) && text[i] >= '0' && text[i] <= '9' {
		i++
	}
	if i == whole || i+1 >= len(text) || text[i] != ',' || text[i+1] < '0' || text[i+1] > '9' || strings.ContainsAny(text[i+1:], ",.") {
		return text, false
	}
	return text[:i] + "." + text[i+1:], true
}

// note says what of a table was repaired, "" for nothing.
func (t *Table) note() string {
	words := t.text.Notes()
	switch t.r.Comma {
	case ';':
		words = append(words, "took semicolons for the separators of columns")
	case '\t':
		words = append(words, "took tabs for the separators of columns")
	}
	if n := t.decimal.count; n > 0 {
		words = append(words, fmt.Sprintf("read decimal commas as points, %d of them, the first in %q on line %d", n, t.decimal.text, t.decimal.line))
	}
	if len(words) == 0 {
		return ""
	}
	return t.name + ": " + strings.Join(words, "; ")
}
