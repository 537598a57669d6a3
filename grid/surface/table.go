package surface

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// table reads a CSV file whose columns are found by name.
type table struct {
	name  string
	r     *csv.Reader
	cols  map[string]int
	row   []string
	wrong *mistakes
}

// mistakes collects the errors of both files, so that one run shows them
// all.
type mistakes struct {
	list []error
	more int
}

const mostMistakes = 20 // a file with more has one cause

func (m *mistakes) add(format string, args ...any) {
	if len(m.list) == mostMistakes {
		m.more++
		return
	}
	m.list = append(m.list, fmt.Errorf(format, args...))
}

func (m *mistakes) err() error {
	if m.more > 0 {
		return errors.Join(append(slices.Clone(m.list), fmt.Errorf("and %s like these", count(m.more, "more error")))...)
	}
	return errors.Join(m.list...)
}

// openTable reads the header of a CSV file. A byte order mark is passed over;
// names are taken without regard to case and surrounding blanks. It returns
// an error when the file is empty, a column is there twice, or a needed one
// is missing.
func openTable(r io.Reader, name string, need []string, wrong *mistakes) (*table, error) {
	in := bufio.NewReader(r)
	if bom, err := in.Peek(3); err == nil && string(bom) == "\uFEFF" {
		if _, err := in.Discard(3); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	t := &table{name: name, r: csv.NewReader(in), cols: map[string]int{}, wrong: wrong}
	t.r.ReuseRecord = true
	head, err := t.r.Read()
	if errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%s: the file is empty; want a first line with %s", name, strings.Join(need, ","))
	}
	if err != nil {
		return nil, t.readError(err)
	}
	for i, col := range head {
		col = strings.ToLower(strings.TrimSpace(col))
		if _, twice := t.cols[col]; twice && col != "" {
			return nil, fmt.Errorf("%s:1: two columns are named %q", name, col)
		}
		t.cols[col] = i
	}
	for _, col := range need {
		if _, ok := t.cols[col]; !ok {
			return nil, fmt.Errorf("%s:1: no column %q; the first line is %q, want %s", name, col, strings.Join(head, ","), strings.Join(need, ","))
		}
	}
	return t, nil
}

func (t *table) readError(err error) error {
	if p, ok := errors.AsType[*csv.ParseError](err); ok {
		return fmt.Errorf("%s:%d: %w", t.name, p.Line, p.Err)
	}
	return fmt.Errorf("%s: %w", t.name, err)
}

// next moves to the next row; ok is false at the end.
func (t *table) next() (ok bool, err error) {
	t.row, err = t.r.Read()
	if errors.Is(err, io.EOF) {
		return false, nil
	}
	if err != nil {
		return false, t.readError(err)
	}
	return true, nil
}

// line returns the line the current row begins at.
func (t *table) line() int {
	line, _ := t.r.FieldPos(0)
	return line
}

// text returns a field without surrounding blanks, "" when the file has no
// such column.
func (t *table) text(col string) string {
	i, ok := t.cols[col]
	if !ok {
		return ""
	}
	return strings.TrimSpace(t.row[i])
}

// number reads a field that must lie in low to high. ok is false after a
// mistake, which is noted.
func (t *table) number(col string, low, high float64) (v float64, ok bool) {
	text := t.text(col)
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.wrong.add("%s:%d: %s %q is not a number; want one from %g to %g", t.name, t.line(), col, text, low, high)
		return 0, false
	}
	if !(v >= low && v <= high) {
		t.wrong.add("%s:%d: %s %s is outside %g to %g", t.name, t.line(), col, text, low, high)
		return 0, false
	}
	return v, true
}
