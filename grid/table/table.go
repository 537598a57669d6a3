package table

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
)

// Text is a CSV file to decode and its name for messages.
type Text struct {
	io.Reader
	Name string
}

// Form says what a table looks like. The zero Form needs no column.
type Form struct {
	Need    []string // columns that must be there, in lower case
	Want    string   // the first line as messages show it; Need with commas when empty
	Remarks bool     // lines that begin with # are passed over
	Loose   bool     // as typed by hand: rows may be shorter, their last fields empty, or longer than the first line; blanks may stand before a quoted field
}

// Table is an open table that stands on one of its rows, before the first one
// at the beginning. Its methods that read fields are for a row.
type Table struct {
	name  string
	form  Form
	r     *csv.Reader
	head  []string // names of the columns, in lower case
	file  int      // in wrong
	wrong *Mistakes

	row   []string
	line  int
	about string
	keys  map[string]int // where they are
}

// Open reads the first line of a table; what is wrong with its rows goes to
// wrong. A byte order mark is passed over; columns are taken without regard to
// case and surrounding blanks. It returns an error when the file is empty or
// cannot be read, two columns have one name, or one that is needed is missing.
func Open(in Text, form Form, wrong *Mistakes) (*Table, error) {
	r := bufio.NewReaderSize(in, 1<<16)
	if mark, err := r.Peek(3); err == nil && string(mark) == "\uFEFF" {
		if _, err := r.Discard(3); err != nil {
			return nil, fmt.Errorf("%s: %w", in.Name, err)
		}
	}
	if form.Want == "" {
		form.Want = strings.Join(form.Need, ",")
	}
	t := &Table{name: in.Name, form: form, r: csv.NewReader(r), file: wrong.open(), wrong: wrong, keys: map[string]int{}}
	t.r.ReuseRecord, t.r.TrimLeadingSpace = true, form.Loose
	if form.Loose {
		t.r.FieldsPerRecord = -1
	}
	if form.Remarks {
		t.r.Comment = '#'
	}
	if err := t.readHead(); err != nil {
		return nil, err
	}
	return t, nil
}

// Next moves to the next row; it returns false at the end. A row with too many
// or too few fields, or whose quotes do not close, is a mistake and passed
// over; a file that cannot be read further is a mistake and ends.
func (t *Table) Next() bool {
	for {
		var err error
		t.row, err = t.r.Read()
		t.about = ""
		if err == nil {
			t.line, _ = t.r.FieldPos(0)
			return true
		}
		if err == io.EOF {
			return false
		}
		p, ok := errors.AsType[*csv.ParseError](err)
		if !ok {
			t.wrong.end(t.file, fmt.Errorf("%s: after line %d: %w", t.name, t.line, err))
			return false
		}
		t.line = p.StartLine
		if errors.Is(err, csv.ErrFieldCount) {
			t.Fault("wrong number of fields: %d; want %d as in the first line", len(t.row), len(t.head))
		} else {
			t.Fault("%w", quotes(p))
		}
	}
}

// quotes says what to do about quotes that do not match.
func quotes(p *csv.ParseError) error {
	where := ""
	if p.Line != p.StartLine {
		where = fmt.Sprintf(" (found on line %d)", p.Line)
	}
	return fmt.Errorf("%w%s; want quotes in pairs, and doubled inside a quoted field", p.Err, where)
}

// Line returns the line the current row begins at, 1 for the first line of the
// file.
func (t *Table) Line() int { return t.line }

// Place returns where the current row begins, "sites.csv:7".
func (t *Table) Place() string { return fmt.Sprintf("%s:%d", t.name, t.line) }

// About says what the current row is about; its mistakes begin with that.
func (t *Table) About(what string) { t.about = what + ": " }

// Fault notes a mistake on the current row.
func (t *Table) Fault(format string, args ...any) {
	t.wrong.add(t.file, t.line, t.name, t.about+format, args...)
}

// FaultAt notes a mistake on a row that began at line.
func (t *Table) FaultAt(line int, format string, args ...any) {
	t.wrong.add(t.file, line, t.name, format, args...)
}
