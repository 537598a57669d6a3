package weeks_test

import (
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/weeks"
)

func TestBandsHoldEveryCrossing(t *testing.T) {
	n := randomYears(t, 40, 40)
	fields, err := weeks.Compute(t.Context(), n, windows(), weeks.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range fields {
		bands := f.Bands()
		if len(bands) == 0 || len(bands) > weeks.MaxBands {
			t.Fatalf("%s: %d bands", f.Window.ID, len(bands))
		}
		for i := 1; i < len(bands); i++ {
			if bands[i].From != bands[i-1].To {
				t.Errorf("%s: gap between %+v and %+v", f.Window.ID, bands[i-1], bands[i])
			}
		}
		outside := 0
		for _, day := range f.Day.All() {
			b := bands[weeks.BandOf(bands, season.Day(day))]
			if !(b.OpenBegin || season.Day(day) >= b.From) || !(b.OpenEnd || season.Day(day) < b.To) {
				outside++
			}
		}
		if outside > 0 {
			t.Errorf("%s: %d crossings in no band: %+v", f.Window.ID, outside, bands)
		}
	}
}

func TestBandLabels(t *testing.T) {
	for _, c := range []struct {
		band weeks.Band
		want string
	}{
		{weeks.Band{From: 71, To: 78}, "Mar 12–18"},
		{weeks.Band{From: 71, To: 78, OpenBegin: true}, "before Mar 19"},
		{weeks.Band{From: 71, To: 78, OpenEnd: true}, "Mar 12 or later"},
		{weeks.Band{From: 358, To: 366 + 7}, "Dec 24–Jan 7"},
	} {
		if got := c.band.Label(); got != c.want {
			t.Errorf("%+v is %q, want %q", c.band, got, c.want)
		}
	}
}

func TestHistogramAddsUp(t *testing.T) {
	n := randomYears(t, 20, 20)
	fields, err := weeks.Compute(t.Context(), n, windows(), weeks.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range fields {
		sum := 0.0
		for _, km2 := range f.Histogram() {
			sum += km2
		}
		areas := f.AreaOf()
		if dated := areas[crossing.Dated]; sum < dated*(1-1e-12) || sum > dated*(1+1e-12) {
			t.Errorf("%s: weeks add to %v km², dated ground is %v", f.Window.ID, sum, dated)
		}
	}
}
