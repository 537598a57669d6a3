package weeks_test

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"

	"weekband/grid"
	"weekband/grid/crossing"
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
		err := weeks.Stream(t.Context(), n, windows(), weeks.Options{Workers: workers},
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
							t.Fatalf("cell %v: reason %v, want %v", cell, s.Reason[i], why)
						}
						if day, ok := f.Day.At(cell); ok {
							from, _ := f.OntimeFrom.At(cell)
							if weeks.DayOfYear(day) != s.Day[i] || from-day != s.OntimeFrom[i]-s.Day[i] {
								t.Fatalf("cell %v: day %v, on time from %v; want %v and %v", cell, s.Day[i], s.OntimeFrom[i], day, from)
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
	if err := weeks.Stream(t.Context(), n, windows(), weeks.Options{Workers: 4}, fail, fine); !errors.Is(err, full) {
		t.Errorf("in any order: %v", err)
	}
	if err := weeks.Stream(t.Context(), n, windows(), weeks.Options{Workers: 4}, fine, fail); !errors.Is(err, full) {
		t.Errorf("in order: %v", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	stop := func(b *weeks.Block) error {
		if b.First >= 64 {
			cancel()
		}
		return nil
	}
	if err := weeks.Stream(ctx, n, windows(), weeks.Options{Workers: 4}, fine, stop); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}
