package render

import (
	"math"
	"testing"

	"weekband/render/carto"
	"weekband/render/plane"
	"weekband/render/wording"
)

func TestPercent(t *testing.T) {
	for share, want := range map[float64]string{0: "", 0.0001: "<1%", 0.00499: "<1%", 0.006: "1%", 0.125: "12%", 1: "100%"} {
		if got := wording.English().Percent(share); got != want {
			t.Errorf("%g is %q, want %q", share, got, want)
		}
	}
}

// A bar's length in pixels, checked with the scale of the screen; none when a
// map is wider than its scale holds.
func TestScaleBar(t *testing.T) {
	frame := plane.Rect{Right: 1000, Bottom: 600}
	screen := func(km float64) carto.Screen {
		b := carto.Bounds{Max: carto.Point{X: km * 1000, Y: km * 600}}
		return carto.Fit(b, plane.Pixel{}, plane.Pixel{X: 1000, Y: 600})
	}
	for width, want := range map[float64]string{1000: "200 km (124 miles)", 90: "10 km (6.2 miles)", 1: "0.2 km (0.1 miles)"} {
		bar, ok := newScaleBar(screen(width), frame, 0.22)
		if !ok || bar.label(wording.English()) != want || math.Abs(bar.pixels-bar.km/width*1000) > 1e-6 {
			t.Errorf("%g km wide: %q of %.1f px, want %q", width, bar.label(wording.English()), bar.pixels, want)
		}
	}
	if bar, ok := newScaleBar(screen(2100), frame, 0.22); ok {
		t.Errorf("a map 2,100 km wide has a bar of %s", bar.label(wording.English()))
	}
}
