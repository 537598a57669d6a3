package table

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"

	"weekband/grid/table/plain"
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
	Rows    int      // how many there may be; 2 million when 0
}

// Table is an open table that stands on one of its rows, before the first one
// at the beginning. Its methods that read fields are for a row.
type Table struct {
	name  string
	form  Form
	text  *plain.Reader
	meter *meter
	r     *csv.Reader
	head  []string // names of the columns, in lower case
	file  int      // in wrong
	wrong *Mistakes

	row     []string
	rows    int
	line    int
	about   string
	keys    map[string]int // where they are
	decimal decimal
}

// Open reads the first line of a table; what is wrong with its rows goes to
// wrong. Columns are taken without regard to case and surrounding blanks.
//
// Tables that can only be meant in one way are read though they are no CSV of
// RFC 4180 in UTF-8, with a note in wrong: with a byte order mark, in UTF-16
// that has one, with lines that end in CR, with semicolons or tabs between the
// columns, and, with semicolons, decimal commas.
//
// It returns an error when the file is empty, too large or cannot be read, two
// columns have one name, or one that is needed is missing.
func Open(in Text, form Form, wrong *Mistakes) (*Table, error) {
	if form.Want == "" {
		form.Want = strings.Join(form.Need, ",")
	}
	if form.Rows == 0 {
		form.Rows = mostRows
	}
	t := &Table{name: in.Name, form: form, wrong: wrong, keys: map[string]int{}}
	t.text = plain.NewReader(in)
	t.meter = &meter{from: t.text, row: mostOfRow, all: mostOfText}
	r := bufio.NewReaderSize(t.meter, headBytes)
	t.r = csv.NewReader(r)
	t.r.ReuseRecord = true
	if form.Loose {
		t.r.FieldsPerRecord = -1
	}
	if form.Remarks {
		t.r.Comment = '#'
	}
	head, _ := r.Peek(headBytes) // a shorter file ends before; an error comes again
	t.r.Comma = separator(head, form)
	t.r.TrimLeadingSpace = form.Loose && t.r.Comma != '\t' // a tab is a blank too
	t.file = wrong.open(t)
	if err := t.readHead(); err != nil {
		return nil, err
	}
	return t, nil
}

// Next moves to the next row; it returns false at the end. A row with too many
// or too few fields, or whose quotes do not close, is a mistake and passed
// over; a file that cannot be read further, or is too large, is a mistake and
// ends.
func (t *Table) Next() bool {
	for {
		var err error
		t.meter.row = mostOfRow
		t.row, err = t.r.Read()
		t.about = ""
		if err == io.EOF {
			return false
		}
		if t.rows++; t.rows > t.form.Rows {
			t.wrong.end(t, fmt.Errorf("%s: more than %d rows; want fewer, in several tables", t.name, t.form.Rows))
			return false
		}
		if err == nil {
			t.line, _ = t.r.FieldPos(0)
			return true
		}
		p, ok := errors.AsType[*csv.ParseError](err)
		if !ok {
			t.wrong.end(t, t.broken(err))
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

// broken says where a file cannot be read further.
func (t *Table) broken(err error) error {
	if e, ok := errors.AsType[*plain.Error](err); ok {
		return fmt.Errorf("%s:%d:%d: %w", t.name, e.Line, e.Col, e)
	}
	if t.line == 0 {
		return fmt.Errorf("%s: %w", t.name, err)
	}
	return fmt.Errorf("%s: after line %d: %w", t.name, t.line, err)
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
	t.wrong.add(t, t.line, t.about+format, args...)
}

// FaultAt notes a mistake on a row that began at line.
func (t *Table) FaultAt(line int, format string, args ...any) {
	t.wrong.add(t, line, format, args...)
}
