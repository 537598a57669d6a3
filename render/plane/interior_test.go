package plane

import (
	"math"
	"testing"
)

func ringOf(xy ...float64) *Path {
	var points []Pixel
	for i := 0; i < len(xy); i += 2 {
		points = append(points, Pixel{X: xy[i], Y: xy[i+1]})
	}
	var p Path
	p.AddRing(points...)
	return &p
}

// The widest place of shapes whose inscribed circle is known.
func TestWidest(t *testing.T) {
	ell := ringOf(0, 0, 100, 0, 100, 40, 40, 40, 40, 100, 0, 100)
	frame := RectPath(Rect{Right: 100, Bottom: 80})
	frame.AddRing(Pixel{X: 10, Y: 10}, Pixel{X: 10, Y: 70}, Pixel{X: 60, Y: 70}, Pixel{X: 60, Y: 10}) // a hole
	for name, c := range map[string]struct {
		shape    *Path
		x, y     float64
		distance float64
	}{
		// A circle that touches the two long sides and the inner corner: its
		// radius r solves r = (40−r)·√2, so r = 40·√2/(1+√2).
		"ell":            {ell, 40 * math.Sqrt2 / (1 + math.Sqrt2), 40 * math.Sqrt2 / (1 + math.Sqrt2), 40 * math.Sqrt2 / (1 + math.Sqrt2)},
		"right triangle": {ringOf(0, 0, 30, 0, 0, 40), 10, 10, 10}, // (30+40−50)/2
	} {
		at, d, ok := Widest(c.shape)
		if !ok || math.Abs(d-c.distance) > 0.5 || math.Hypot(at.X-c.x, at.Y-c.y) > 2 {
			t.Errorf("%s: %v at distance %.2f, want %.1f, %.1f at %.2f", name, at, d, c.x, c.y, c.distance)
		}
	}
	// Between hole and edge a circle of 40 px fits, anywhere half way up.
	if at, d, _ := Widest(frame); math.Abs(d-20) > 0.5 || math.Abs(at.X-80) > 1 {
		t.Errorf("frame: %v at distance %.2f, want x = 80 at 20", at, d)
	}
	if _, _, ok := Widest(&Path{}); ok {
		t.Error("an empty shape has a widest place")
	}
}

// The cover of a shape against counting points one by one.
func TestCover(t *testing.T) {
	shape := ringOf(10, 10, 90, 20, 80, 70, 40, 40, 15, 80)
	shape.AddRing(Pixel{X: 30, Y: 22}, Pixel{X: 30, Y: 34}, Pixel{X: 45, Y: 28}) // a hole
	if Turning(shape.Lines[0].Points)*Turning(shape.Lines[1].Points) >= 0 {
		t.Fatal("the hole winds like its ring")
	}
	c := NewCover(shape, 0.5)
	for _, box := range []Rect{
		{Left: 5, Top: 5, Right: 95, Bottom: 85}, {Left: 20, Top: 15, Right: 60, Bottom: 45},
		{Left: 60, Top: 30, Right: 75, Bottom: 40}, {Right: 9, Bottom: 9},
	} {
		in := 0
		const n = 200
		for i := range n {
			for k := range n {
				p := Pixel{X: box.Left + box.Width()*(float64(i)+0.5)/n, Y: box.Top + box.Height()*(float64(k)+0.5)/n}
				if depth(shape, p) > 0 {
					in++
				}
			}
		}
		if got, want := c.Share(box), float64(in)/n/n; math.Abs(got-want) > 0.01 {
			t.Errorf("%v is covered to %.3f, want %.3f", box, got, want)
		}
	}
	for _, at := range c.Rooms(20, 8, Pixel{X: 60, Y: 30}) {
		if s := c.Share(Rect{Left: at.X - 10, Top: at.Y - 4, Right: at.X + 10, Bottom: at.Y + 4}); s < 0.93 { // the scan lines end half a step inside
			t.Errorf("a room at %v is covered to only %.2f", at, s)
		}
	}
}
