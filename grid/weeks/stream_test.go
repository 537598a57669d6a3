package weeks_test

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"

	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/weeks"
)

// A stream hands out what fields hold, from north to south, whatever the number
// of workers.
func TestStreamIsWhatFieldsHold(t *testing.T) {
	n := randomYears(t, 50, 30)
	n.has[77] = false
	fields, err := weeks.Compute(t.Context(), n, windows(), weeks.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, workers := range []int{1, 3, 16} {
		next, seen := 0, atomic.Int64{}
		err := weeks.Stream(t.Context(), n, windows(), weeks.Options{Workers: workers}, nil,
			func(b *weeks.Block) error { seen.Add(int64(b.Rows)); return nil },
			func(b *weeks.Block) error {
				if b.First != next {
					t.Errorf("row %d comes after row %d", b.First, next)
				}
				next = b.First + b.Rows
				for i, has := range b.Has {
					cell := grid.Cell{Row: b.First + i/30, Col: i % 30}
					for k, f := range fields {
						s := &b.Windows[k]
						why, ok := f.Reason.At(cell)
						if ok != has || has && why != s.Reason[i] || !has && s.Reason[i] != crossing.NoData {
							t.Errorf("cell %v: reason %v, want %v", cell, s.Reason[i], why)
						}
						if day, ok := f.Day.At(cell); ok {
							from, _ := f.OntimeFrom.At(cell)
							if weeks.DayOfYear(day) != s.Day[i] || from-day != s.OntimeFrom[i]-s.Day[i] {
								t.Errorf("cell %v: day %v, on time from %v; want %v and %v", cell, s.Day[i], s.OntimeFrom[i], day, from)
							}
						}
					}
				}
				return nil
			})
		if err != nil || next != 50 || seen.Load() != 50 {
			t.Errorf("%d workers: %v after row %d, %d rows in any order", workers, err, next, seen.Load())
		}
	}
}

// An error of either function, or the end of the context, ends a stream.
func TestStreamEndsOnErrors(t *testing.T) {
	n := randomYears(t, 200, 5)
	full := errors.New("disk full")
	fine := func(*weeks.Block) error { return nil }
	fail := func(b *weeks.Block) error {
		if b.First >= 64 {
			return full
		}
		return nil
	}
	if err := weeks.Stream(t.Context(), n, windows(), weeks.Options{Workers: 4}, nil, fail, fine); !errors.Is(err, full) {
		t.Errorf("in any order: %v", err)
	}
	if err := weeks.Stream(t.Context(), n, windows(), weeks.Options{Workers: 4}, nil, fine, fail); !errors.Is(err, full) {
		t.Errorf("in order: %v", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	stop := func(b *weeks.Block) error {
		if b.First >= 64 {
			cancel()
		}
		return nil
	}
	if err := weeks.Stream(ctx, n, windows(), weeks.Options{Workers: 4}, nil, fine, stop); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// Slabs hold the rows of fields, and a sample the cells next to the middles of
// its own.
func TestSlabsAndSample(t *testing.T) {
	const rows, cols = 50, 31
	n := randomYears(t, rows, cols)
	n.has[3*cols+7] = false
	opts := weeks.Options{Offsets: calibration.US().Over(n.grid)}
	fields, err := weeks.Compute(t.Context(), n, windows(), opts)
	if err != nil {
		t.Fatal(err)
	}
	same := func(what string, got, want float32, gotOK, wantOK bool) {
		t.Helper()
		if got != want || gotOK != wantOK {
			t.Errorf("%s: %v (%v), want %v (%v)", what, got, gotOK, want, wantOK)
		}
	}
	seen := 0
	slabs := weeks.NewSlabs(n.grid, windows(), opts, 16, func(first int, slab []*weeks.Field) error {
		if first != seen {
			t.Errorf("rows from %d on, want from %d", first, seen)
		}
		seen += slab[0].Grid().Rows()
		for row := range slab[0].Grid().Rows() {
			for col := range cols {
				in, at := grid.Cell{Row: row, Col: col}, grid.Cell{Row: first + row, Col: col}
				for k, f := range fields {
					got, ok := slab[k].Day.At(in)
					want, wantOK := f.Day.At(at)
					if wantOK {
						want = weeks.DayOfYear(want)
					}
					same("day", got, want, ok, wantOK)
					got, ok = slab[k].Slope.At(in)
					want, wantOK = f.Slope.At(at)
					same("slope", got, want, ok, wantOK)
				}
			}
		}
		return nil
	})
	sample, err := weeks.NewSample(n.grid, windows(), opts, 300)
	if err != nil {
		t.Fatal(err)
	}
	years := weeks.NewYears(n.grid)
	err = weeks.Stream(t.Context(), n, windows(), opts, years, func(*weeks.Block) error { return nil }, func(b *weeks.Block) error {
		sample.Take(b)
		return slabs.Take(b)
	})
	if err != nil || seen != rows {
		t.Fatalf("%v after %d rows", err, seen)
	}
	coarse := sample.Fields([]season.Day{fields[0].Cut, fields[1].Cut}, years)
	g := coarse[0].Grid()
	if g.Cells() > 300 || g.Cells() < 150 || g.Box() != n.grid.Box() {
		t.Fatalf("the sample lies on %v", g)
	}
	for row := range g.Rows() {
		for col := range g.Cols() {
			cell := grid.Cell{Row: row, Col: col}
			at, ok := n.grid.Locate(g.Center(cell))
			if !ok {
				t.Fatalf("the middle of %v lies off the grid", cell)
			}
			for k, f := range fields {
				for what, r := range map[string][2]*grid.Raster[float32]{
					"day": {coarse[k].Day, f.Day}, "spread": {coarse[k].Spread, f.Spread}, "on time": {coarse[k].OntimeFrom, f.OntimeFrom},
					"catching up": {coarse[k].CatchupTo, f.CatchupTo}, "error": {coarse[k].Error, f.Error}, "near": {coarse[k].Near, f.Near},
				} {
					got, gotOK := r[0].At(cell)
					want, wantOK := r[1].At(at)
					same(what, got, want, gotOK, wantOK)
				}
				var got, want curve.Year
				if coarse[k].Typical.Year(cell, &got) != f.Typical.Year(at, &want) || got != want {
					t.Fatalf("the typical year of %v is not that of %v", cell, at)
				}
			}
		}
	}
}
