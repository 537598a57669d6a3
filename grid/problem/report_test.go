package problem_test

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"testing"

	"weekband/grid/problem"
)

func Example() {
	var r problem.Report
	r.Note("places.csv: the columns are separated by semicolons; read so")
	r.Add("places.csv", errors.New("places.csv:3: the place has no name"))
	r.Add("terrain", errors.New("terrain: height.tif: the file is empty"))
	fmt.Println(r.Err())
	// Output:
	// places.csv:3: the place has no name
	// terrain: height.tif: the file is empty
	// note: places.csv: the columns are separated by semicolons; read so
}

func TestEmptyReport(t *testing.T) {
	var r problem.Report
	r.Note("a warning alone is no error")
	r.Add("a", nil)
	if err := r.Err(); err != nil {
		t.Error(err)
	}
}

// 400 mistakes of one file leave room for the first of any other, and for an
// early end.
func TestCappedAndCounted(t *testing.T) {
	var table, r problem.Report
	for i := range 400 {
		table.Add("a.csv", fmt.Errorf("a.csv:%d: bad", i+2))
	}
	table.AddFirst("a.csv", fmt.Errorf("a.csv: breaks off: %w", io.ErrUnexpectedEOF))
	table.Note("one", "two")
	r.Add("tables", table.Err())
	r.Add("b.tif", fs.ErrNotExist)
	r.Count(7)
	lines := strings.Split(r.Err().Error(), "\n")
	if len(lines) != 23 || lines[0] != "a.csv:2: bad" || lines[17] != "a.csv:19: bad" || lines[18] != "a.csv: breaks off: unexpected EOF" ||
		lines[19] != fs.ErrNotExist.Error() || lines[20] != "and 389 more" || lines[21] != "note: one" {
		t.Errorf("%d lines:\n%s", len(lines), strings.Join(lines, "\n"))
	}
	if !errors.Is(r.Err(), fs.ErrNotExist) || !errors.Is(r.Err(), io.ErrUnexpectedEOF) {
		t.Error("the causes are gone")
	}
}

func TestJoinedErrorsAreTakenApart(t *testing.T) {
	var r problem.Report
	r.Add("months", errors.Join(fs.ErrNotExist, nil, errors.Join(fs.ErrPermission, io.EOF)))
	if got := len(r.Unwrap()); got != 3 {
		t.Errorf("%d errors: %v", got, r.Err())
	}
	r.Add("months", fmt.Errorf("%w\n    because %w", fs.ErrExist, io.EOF))
	if got := len(r.Unwrap()); got != 4 {
		t.Errorf("a sentence of two causes was taken apart: %v", r.Err())
	}
}

func TestNotesAreCapped(t *testing.T) {
	var r problem.Report
	r.Add("a", io.EOF)
	for i := range 25 {
		r.Note(fmt.Sprint(i))
	}
	lines := strings.Split(r.Error(), "\n")
	if lines[0] != "EOF" || len(lines) != 22 || lines[21] != "and 5 more notes" {
		t.Errorf("%q", lines)
	}
}
