package table

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
)

// Mistakes collects what is wrong with the rows of several tables. The zero
// Mistakes has none.
type Mistakes struct {
	files int
	list  []mistake
	more  int // beyond most
	ends  []mistake
}

type mistake struct {
	file, line int
	err        error
}

const most = 20 // a file with more has one cause

// open returns a number for a file, in the order of the messages.
func (m *Mistakes) open() int {
	m.files++
	return m.files
}

// add notes a mistake, or only counts it when there are enough.
func (m *Mistakes) add(file, line int, name, format string, args ...any) {
	if len(m.list) == most {
		m.more++
		return
	}
	m.list = append(m.list, mistake{file, line, fmt.Errorf("%s:%d: %w", name, line, fmt.Errorf(format, args...))})
}

// end notes that a file could not be read to its end, however many mistakes
// there are.
func (m *Mistakes) end(file int, err error) {
	m.ends = append(m.ends, mistake{file, math.MaxInt, err})
}

// Err returns the mistakes, each with its file and line, one to a line of the
// message: in the order in which the files were opened, then by line. Of the
// rows' mistakes only the first 20 that were found are there; the rest is
// counted. It returns nil without any.
func (m *Mistakes) Err() error {
	list := slices.Concat(m.list, m.ends)
	slices.SortStableFunc(list, func(a, b mistake) int {
		return cmp.Or(cmp.Compare(a.file, b.file), cmp.Compare(a.line, b.line))
	})
	var all []error
	for _, w := range list {
		all = append(all, w.err)
	}
	switch {
	case m.more == 1:
		all = append(all, errors.New("and 1 more error like these"))
	case m.more > 1:
		all = append(all, fmt.Errorf("and %d more errors like these", m.more))
	}
	return errors.Join(all...)
}
