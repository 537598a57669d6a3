package table

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"weekband/grid/problem"
)

// Mistakes collects what is wrong with the rows of several tables, and what
// was repaired. The zero Mistakes has none.
type Mistakes struct {
	tables []*Table
	kept   []int // mistakes kept of every table
	list   []mistake
	more   int // that were not kept
}

type mistake struct {
	file, line int
	err        error
}

// open returns a number for a file, in the order of the messages.
func (m *Mistakes) open(t *Table) int {
	m.tables = append(m.tables, t)
	m.kept = append(m.kept, 0)
	return len(m.tables) - 1
}

// add notes a mistake, or only counts it when its file has enough.
func (m *Mistakes) add(t *Table, line int, format string, args ...any) {
	if m.kept[t.file]++; m.kept[t.file] > problem.Shown {
		m.more++
		return
	}
	m.list = append(m.list, mistake{t.file, line, fmt.Errorf("%s:%d: %w", t.name, line, fmt.Errorf(format, args...))})
}

// end notes that a file could not be read to its end, however many mistakes
// there are.
func (m *Mistakes) end(t *Table, err error) {
	m.list = append(m.list, mistake{t.file, math.MaxInt, err})
}

// Err returns the mistakes as a problem.Report, each with its file and line,
// one to a line of the message: in the order in which the files were opened,
// then by line. Of every file the first 20 that were found are there, of which
// the message shows 20 in all; the rest is counted. Repairs stand behind. It
// returns nil without a mistake.
func (m *Mistakes) Err() error {
	slices.SortStableFunc(m.list, func(a, b mistake) int {
		return cmp.Or(cmp.Compare(a.file, b.file), cmp.Compare(a.line, b.line))
	})
	var r problem.Report
	for _, w := range m.list {
		add := r.Add
		if w.line == math.MaxInt {
			add = r.AddFirst
		}
		add(m.tables[w.file].name, w.err)
	}
	r.Count(m.more)
	r.Note(m.Notes()...)
	return r.Err()
}

// Join is Err together with what else went wrong, such as a further table that
// could not be opened.
func (m *Mistakes) Join(err error) error {
	var r problem.Report
	r.Add("rows", m.Err())
	r.Add("tables", err)
	return r.Err()
}

// Notes says what was repaired to read the tables, one note a table. Call it
// after the last row.
func (m *Mistakes) Notes() []string {
	var out []string
	for _, t := range m.tables {
		if note := t.note(); note != "" {
			out = append(out, note)
		}
	}
	return out
}
