package render

import (
	"math"
	"testing"

	"weekband/grid"
	"weekband/render/canvas"
	"weekband/render/plane"
)

// On a map centred on the pole all meridians are rays from it, so north is the
// direction of the pole, from everywhere; on one of the south pole it is away
// from it. An arrow has its head and its letter on that side.
func TestNorthOnPolarMaps(t *testing.T) {
	for lat, box := range map[float64]grid.Box{90: {West: -120, East: 120, South: 60, North: 85}, -90: {West: -120, East: 120, South: -85, North: -60}} {
		a, err := NewAtlas(Territory{Extent: box}, 900)
		if err != nil {
			t.Fatal(err)
		}
		frame := plane.Rect{Right: 900, Bottom: 700}
		v := a.fit(frame, 10)
		pole := v.screen.Pixel(v.projection.Forward(grid.LonLat{Lat: lat}))
		toward := math.Copysign(1, lat)
		for _, at := range []plane.Pixel{{X: 100, Y: 100}, {X: 700, Y: 150}, {X: 450, Y: 600}, {X: 60, Y: 650}} {
			angle, ok := v.north(at)
			want := math.Atan2(toward*(pole.X-at.X), -toward*(pole.Y-at.Y))
			if off := math.Remainder(angle-want, 2*math.Pi); !ok || math.Abs(off) > 1e-3 {
				t.Errorf("pole %g: north at %v is %.4f, want %.4f", lat, at, angle, want)
			}
			mark := newArrow(plane.Rect{Left: at.X, Right: at.X, Top: at.Y, Bottom: at.Y}.Grow(20), angle, canvas.Font{Face: canvas.Regular, Size: 12}, "N")
			tail, tip, letter := mark.shaft.Lines[0].Points[0], mark.head.Lines[0].Points[0], mark.letter.Bounds().Center()
			away := func(p plane.Pixel) float64 { return toward * math.Hypot(p.X-pole.X, p.Y-pole.Y) }
			if !(away(tail) > away(tip) && away(tip) > away(letter)) {
				t.Errorf("pole %g: the arrow at %v points the wrong way", lat, at)
			}
		}
	}
}
