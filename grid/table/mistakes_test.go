package table_test

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"weekband/grid/table"
)

// Mistakes come by file as they were opened, then by line, however they were
// found.
func TestMistakesAreSorted(t *testing.T) {
	var wrong table.Mistakes
	if wrong.Err() != nil {
		t.Error("no table has a mistake")
	}
	files := map[string]*table.Table{}
	for _, name := range []string{"z.csv", "a.csv"} {
		in, err := table.Open(text(name, "id\nA\nB\n"), table.Form{}, &wrong)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = in
	}
	a, z := files["a.csv"], files["z.csv"]
	a.Next()
	a.About("Lowen")
	a.Fault("one %s", "cow")
	z.Next()
	z.Next()
	z.Fault("%w", io.ErrNoProgress)
	z.FaultAt(2, "earlier")
	a.Next()
	a.Fault("the name is gone")
	want := "z.csv:2: earlier\nz.csv:3: " + io.ErrNoProgress.Error() + "\na.csv:2: Lowen: one cow\na.csv:3: the name is gone"
	if err := wrong.Err(); err.Error() != want || !errors.Is(err, io.ErrNoProgress) {
		t.Errorf("%v\nwant\n%s", err, want)
	}
}

func TestMistakesAreCapped(t *testing.T) {
	for n, want := range map[int]string{20: "t.csv:20: m", 21: "and 1 more", 25: "and 5 more"} {
		var wrong table.Mistakes
		in, err := table.Open(text("t.csv", "id\n"), table.Form{}, &wrong)
		if err != nil {
			t.Fatal(err)
		}
		for i := range n {
			in.FaultAt(i+1, "m")
		}
		lines := strings.Split(wrong.Err().Error(), "\n")
		if lines[len(lines)-1] != want || len(lines) != min(n, 21) {
			t.Errorf("%d mistakes end with %q, want %q: %s", n, lines[len(lines)-1], want, fmt.Sprint(lines))
		}
	}
}

// What went wrong beside the rows comes after them.
func TestJoin(t *testing.T) {
	var wrong table.Mistakes
	if err := wrong.Join(nil); err != nil {
		t.Error(err)
	}
	in, err := table.Open(text("t.csv", "id\nA\n"), table.Form{}, &wrong)
	if err != nil {
		t.Fatal(err)
	}
	in.Next()
	in.Fault("a mistake")
	gone := errors.New("values.csv: no such file")
	if err := wrong.Join(gone); err == nil || err.Error() != "t.csv:2: a mistake\nvalues.csv: no such file" || !errors.Is(err, gone) {
		t.Errorf("%v", err)
	}
}
