package table

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"slices"
	"strings"
)

// Column is a column of a Table; the zero Column is one that is not there, and
// all its fields are empty.
type Column int // its place, 1 for the first

// readHead reads the names of the columns.
func (t *Table) readHead() error {
	head, err := t.r.Read()
	if err == io.EOF {
		return fmt.Errorf("%s: the file is empty; want a first line with %s", t.name, t.form.Want)
	}
	if p, ok := errors.AsType[*csv.ParseError](err); ok {
		return fmt.Errorf("%s:%d: %w", t.name, p.StartLine, quotes(p))
	}
	if err != nil {
		return t.broken(err)
	}
	t.line, _ = t.r.FieldPos(0)
	for _, name := range head {
		t.head = append(t.head, strings.ToLower(strings.TrimSpace(name)))
	}
	for i, name := range t.head {
		if name != "" && slices.Contains(t.head[:i], name) {
			return t.HeadError("two columns are named %q", name)
		}
	}
	for _, name := range t.form.Need {
		if t.Find(name) == 0 {
			return t.HeadError("no column %q", name)
		}
	}
	return nil
}

// Find returns the column of that name, in lower case, and 0 when there is
// none.
func (t *Table) Find(name string) Column {
	if name == "" {
		return 0
	}
	return Column(slices.Index(t.head, name) + 1)
}

// Columns yields all columns and their names, in lower case, in the order of
// the file.
func (t *Table) Columns() iter.Seq2[Column, string] {
	return func(yield func(Column, string) bool) {
		for i, name := range t.head {
			if !yield(Column(i+1), name) {
				return
			}
		}
	}
}

// HeadError returns an error about the first line, which quotes it and says
// what is wanted. It is for use before the first row.
func (t *Table) HeadError(format string, args ...any) error {
	return fmt.Errorf("%s:%d: %w; the first line is %q, want %s", t.name, t.line,
		fmt.Errorf(format, args...), clip(strings.Join(t.head, ","), 400), t.form.Want)
}

// clip shortens a text to n bytes: a file that is no table may be one field.
func clip(text string, n int) string {
	if len(text) <= n {
		return text
	}
	return strings.ToValidUTF8(text[:n], "") + "…"
}
