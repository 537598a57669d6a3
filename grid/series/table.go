package series

import (
	"bufio"
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// Text is a CSV file to decode and its name for messages.
type Text struct {
	io.Reader
	Name string
}

// table reads a CSV file whose columns are found by name.
type table struct {
	name  string
	r     *csv.Reader
	head  []string
	row   []string
	wrong *mistakes
}

// openTable reads the header. A byte order mark is passed over; names are
// taken without regard to case and surrounding blanks. It returns an error
// when the file is empty or a column is there twice.
func openTable(in Text, wrong *mistakes, want string) (*table, error) {
	r := bufio.NewReaderSize(in, 1<<16)
	if mark, err := r.Peek(3); err == nil && string(mark) == "\uFEFF" {
		if _, err := r.Discard(3); err != nil {
			return nil, fmt.Errorf("%s: %w", in.Name, err)
		}
	}
	t := &table{name: in.Name, r: csv.NewReader(r), wrong: wrong}
	head, err := t.r.Read()
	if errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%s: the file is empty; want a first line with %s", t.name, want)
	}
	if err != nil {
		return nil, t.readError(err)
	}
	t.r.ReuseRecord = true
	for _, name := range head {
		name = strings.ToLower(strings.TrimSpace(name))
		if name != "" && slices.Contains(t.head, name) {
			return nil, fmt.Errorf("%s:1: two columns are named %q", t.name, name)
		}
		t.head = append(t.head, name)
	}
	return t, nil
}

// need returns where a column stands, or an error that quotes the header.
func (t *table) need(name, want string) (int, error) {
	if i := slices.Index(t.head, name); i >= 0 {
		return i, nil
	}
	return 0, fmt.Errorf("%s:1: no column %q; the first line is %q, want %s", t.name, name, strings.Join(t.head, ","), want)
}

// readError gives an error of the reader its place.
func (t *table) readError(err error) error {
	if p, ok := errors.AsType[*csv.ParseError](err); ok {
		return fmt.Errorf("%s:%d: %w; want as many fields as in the first line and quotes in pairs", t.name, p.Line, p.Err)
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

// text returns a field without surrounding blanks, "" for column -1. It is
// valid until the next row.
func (t *table) text(col int) string {
	if col < 0 {
		return ""
	}
	return strings.TrimSpace(t.row[col])
}

// fault notes a mistake on the current row.
func (t *table) fault(format string, args ...any) {
	t.wrong.add(t.name, t.line(), fmt.Sprintf(format, args...))
}

// number reads a field that must lie in low to high. ok is false after a
// mistake, which is noted.
func (t *table) number(col int, low, high float64) (v float64, ok bool) {
	text := t.text(col)
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.fault("%s %q is not a number; want one from %g to %g", t.head[col], text, low, high)
		return 0, false
	}
	if !(v >= low && v <= high) {
		t.fault("%s %s is outside %g to %g; leave the field empty where nothing was measured", t.head[col], text, low, high)
		return 0, false
	}
	return v, true
}

// mistakes collects the errors of both files, so that one run shows them all.
type mistakes struct {
	list []mistake
	more int
}

type mistake struct {
	file string
	line int
	text string
}

const mostMistakes = 20 // a file with more has one cause

func (m *mistakes) add(file string, line int, text string) {
	if len(m.list) == mostMistakes {
		m.more++
		return
	}
	m.list = append(m.list, mistake{file, line, text})
}

// err joins the mistakes by file, in the order they were read, and line; nil
// without any.
func (m *mistakes) err(files ...string) error {
	slices.SortStableFunc(m.list, func(a, b mistake) int {
		return cmp.Or(cmp.Compare(slices.Index(files, a.file), slices.Index(files, b.file)), cmp.Compare(a.line, b.line))
	})
	var all []error
	for _, w := range m.list {
		all = append(all, fmt.Errorf("%s:%d: %s", w.file, w.line, w.text))
	}
	if m.more > 0 {
		all = append(all, fmt.Errorf("and %s like these", count(m.more, "more error")))
	}
	return errors.Join(all...)
}

// count writes "1 station" or "2 stations".
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}
