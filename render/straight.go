package render

import "github.com/fogleman/gg"

// straight is a pen that draws curves as steps of straight lines. The library
// does so for strokes, but by sums that come out a little under or over from
// machine to machine, also where a curve stands upright; these come out exact
// there.
type straight struct {
	to    *gg.Context
	steps float64 // of a curve, a whole number
	x, y  float64 // where the pen is
}

func (s *straight) NewSubPath() { s.to.NewSubPath() }

func (s *straight) MoveTo(x, y float64) {
	s.x, s.y = x, y
	s.to.MoveTo(x, y)
}

func (s *straight) LineTo(x, y float64) {
	s.x, s.y = x, y
	s.to.LineTo(x, y)
}

func (s *straight) QuadraticTo(x1, y1, x2, y2 float64) {
	s.curve(func(t float64) (x, y float64) {
		return quadratic(s.x, x1, x2, t), quadratic(s.y, y1, y2, t)
	})
	s.LineTo(x2, y2)
}

func (s *straight) CubicTo(x1, y1, x2, y2, x3, y3 float64) {
	s.curve(func(t float64) (x, y float64) {
		return onWay(quadratic(s.x, x1, x2, t), quadratic(x1, x2, x3, t), t), onWay(quadratic(s.y, y1, y2, t), quadratic(y1, y2, y3, t), t)
	})
	s.LineTo(x3, y3)
}

// curve draws all steps but the last.
func (s *straight) curve(at func(t float64) (x, y float64)) {
	for i := 1.0; i < s.steps; i++ {
		s.to.LineTo(at(i / s.steps))
	}
}

// quadratic is a coordinate of a Bézier curve, by de Casteljau's steps.
func quadratic(a, b, c, t float64) float64 { return onWay(onWay(a, b, t), onWay(b, c, t), t) }

// onWay is t of the way from a to b.
func onWay(a, b, t float64) float64 { return a + float64(t*(b-a)) }
