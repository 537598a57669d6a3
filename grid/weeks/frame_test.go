package weeks_test

import (
	"math"
	"testing"

	"weekband/grid/season"
	"weekband/grid/weeks"
)

// The contours of Stages are the borders of the calendar: floor is the
// status.
func TestStagesAgreeWithTheCalendar(t *testing.T) {
	n := randomYears(t, 10, 10)
	fields, err := weeks.Compute(t.Context(), n, windows(), weeks.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range fields {
		frames := f.Frames()
		if len(frames) < 10 {
			t.Fatalf("%s: %d frames", f.Window.ID, len(frames))
		}
		for _, frame := range frames {
			stages := f.Stages(frame.Middle)
			sum, all := 0.0, 0.0
			for _, km2 := range weeks.StageAreas(stages) {
				sum += km2
			}
			for _, km2 := range f.Histogram() {
				all += km2
			}
			if math.Abs(sum-all) > 1e-9*all {
				t.Fatalf("the statuses of %v cover %v km², dated ground is %v", frame.Week, sum, all)
			}
			for cell, stage := range stages.All() {
				c, _ := f.Calendar(cell)
				want := 0
				for _, border := range []season.Day{c.AheadFrom, c.OntimeFrom, c.OntimeTo, c.CatchupTo} {
					if float32(frame.Middle) >= float32(border) {
						want++
					}
				}
				got := 0
				for _, b := range weeks.StageBreaks {
					if float64(stage) >= b {
						got++
					}
				}
				if got != want {
					t.Fatalf("%s, %v, cell %v: stage %v is status %d, want %d", f.Window.ID, frame.Week, cell, stage, got, want)
				}
			}
		}
		// The first frame shows the land at rest and the last one past, but for
		// slivers.
		for _, end := range []struct {
			frame weeks.Frame
			rest  int
		}{{frames[0], 0}, {frames[len(frames)-1], 4}} {
			km2 := weeks.StageAreas(f.Stages(end.frame.Middle))
			total := 0.0
			for _, a := range km2 {
				total += a
			}
			if len(frames) < season.Weeks && km2[end.rest] < 0.99*total {
				t.Errorf("%s: in the frame of %v %.1f %% of the land has status %d, want 99 %%", f.Window.ID, end.frame.Week, 100*km2[end.rest]/total, end.rest)
			}
		}
	}
}
