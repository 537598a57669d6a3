//go:build unix

package sidebyside

import (
	"flag"
	"os"
	"runtime"
	"testing"
)

var (
	tableFile = flag.String("table", "", "measure at the size of a country and write the table here")
	rowsFlag  = flag.Int("rows", 596, "with -table: rows of cells")
	colsFlag  = flag.Int("cols", 1385, "with -table: columns of cells")
)

// raced is true under the race detector; the gate runs the test without it.
var raced bool

// TestSideBySide runs every step by weekband and by others, holds that they
// agree, and writes the table when one is asked for.
func TestSideBySide(t *testing.T) {
	if testing.Short() || raced {
		t.Skip("makes invented ground and runs five other programs on it")
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(threads))
	s, runs := size{rows: 40, cols: 60, regions: 12}, 1
	if *tableFile != "" {
		s, runs = size{rows: *rowsFlag, cols: *colsFlag, regions: 3100}, 3
		if s.rows*s.cols > 5_000_000 {
			runs = 1 // which takes the others minutes
		}
	}
	e := invent(t, s)
	var rows []row
	add := func(more ...row) {
		rows = append(rows, more...)
		t.Logf("%+v", more)
	}
	add(reading(t, e, s, runs))
	air, _ := months(t, e, s, runs, "air")
	add(air...)
	ground, field := months(t, e, s, runs, "soil")
	add(ground...)
	add(writing(t, e, s, runs, field))
	add(banding(t, e, s, runs))
	add(summing(t, e, s, runs, field))
	add(kriging(t, e, s))
	if *tableFile == "" {
		return
	}
	if err := os.WriteFile(*tableFile, []byte(table(rows)), 0o644); err != nil {
		t.Fatal(err)
	}
}
