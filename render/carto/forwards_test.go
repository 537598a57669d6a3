package carto_test

import (
	"math"
	"testing"

	"weekband/grid"
	"weekband/render/carto"
)

// Forwards of many positions is Forward to two centimetres, on cones about either
// pole, up to the poles and beyond the antimeridian.
func TestForwardsIsForward(t *testing.T) {
	for _, p := range []carto.Parallels{{First: 29.5, Second: 45.5}, {First: 43, Second: 47}, {First: -20, Second: -36}, {First: 5, Second: 9}} {
		b, err := carto.NewAlbers(carto.WGS84, grid.LonLat{Lon: -96, Lat: (p.First + p.Second) / 2}, p)
		if err != nil {
			t.Fatal(err)
		}
		quick, worst := carto.Forwards(b, 1_000_000), 0.0
		for lat := -90.0; lat <= 90; lat += 0.0173 {
			if q := (math.Copysign(90, p.First) - lat) * math.Copysign(1, p.First); q < 0.5 {
				continue // next to the apex
			}
			at := grid.LonLat{Lon: 3 * lat, Lat: lat}
			want, got := b.Forward(at), quick(at)
			worst = max(worst, math.Hypot(want.X-got.X, want.Y-got.Y))
		}
		if worst > 0.02 {
			t.Errorf("parallels %v: %.4f m off, want two centimetres", p, worst)
		}
		for _, lat := range []float64{-90, 90, 91, math.NaN()} {
			want, got := b.Forward(grid.LonLat{Lon: -90, Lat: lat}), quick(grid.LonLat{Lon: -90, Lat: lat})
			if math.Abs(want.X-got.X) > 0.02 || math.Abs(want.Y-got.Y) > 0.02 {
				t.Errorf("latitude %v: %v, want %v", lat, got, want)
			}
		}
	}
}
