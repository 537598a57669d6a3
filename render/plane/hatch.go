package plane

import "math"

// Hatch is lines at an angle in radians and a spacing in pixels, or dots on such
// lines. They hang on one lattice for the whole page, so that neighbouring
// shapes continue each other.
type Hatch struct {
	Angle, Spacing float64
	Dotted         bool
}

// Radius is that of the dots in pixels.
func (h Hatch) Radius() float64 { return float64(h.Spacing * 0.17) }

// spansOn calls visit for each stretch of the lines inside a path, with what
// turns a place on the line to one on the page.
func (h Hatch) spansOn(shape *Path, visit func(r row, s span, at func(x float64) Pixel)) {
	sin, cos := SinCos(h.Angle)
	turned := func(q Pixel) Pixel {
		return Pixel{X: float64(q.X*cos) + float64(q.Y*sin), Y: float64(q.Y*cos) - float64(q.X*sin)}
	}
	for _, r := range scanlines(shape, h.Spacing, turned) {
		y := (float64(r.index) + 0.5) * h.Spacing
		at := func(x float64) Pixel {
			return Pixel{X: float64(x*cos) - float64(y*sin), Y: float64(x*sin) + float64(y*cos)}
		}
		for _, s := range r.spans {
			visit(r, s, at)
		}
	}
}

// Lines returns the lines inside a path, each from edge to edge.
func (h Hatch) Lines(shape *Path) *Path {
	var out Path
	h.spansOn(shape, func(_ row, s span, at func(float64) Pixel) { out.Add(at(s.from), at(s.to)) })
	return &out
}

// Dots returns the centres of the dots that lie wholly inside a path along
// their line.
func (h Hatch) Dots(shape *Path) []Pixel {
	var out []Pixel
	h.spansOn(shape, func(r row, s span, at func(float64) Pixel) {
		offset := float64(r.index&1) / 2
		for k := math.Ceil((s.from+h.Radius())/h.Spacing - offset); (k+offset)*h.Spacing <= s.to-h.Radius(); k++ {
			out = append(out, at((k+offset)*h.Spacing))
		}
	})
	return out
}
