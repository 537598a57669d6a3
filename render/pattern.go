package render

import (
	"math"

	"weekband/render/carto"
)

// Pattern is a drawn texture that tells areas apart without colour.
type Pattern uint8

const (
	Plain   Pattern = iota
	Rising          // lines from lower left to upper right
	Falling         // lines from upper left to lower right
	Level           // horizontal lines
	Upright         // vertical lines
	Dots            // dots in staggered rows
	Wide            // like Falling, with twice the distance
)

// texture is a pattern's geometry: lines at an angle in radians and a spacing
// in pixels, or dots on such lines.
type texture struct {
	angle, spacing float64
	dots           bool
}

// texture returns the geometry for a unit of length u in pixels, the size of
// small text.
func (p Pattern) texture(u float64) texture {
	fine := u * 0.46
	switch p {
	case Rising:
		return texture{angle: -math.Pi / 4, spacing: fine}
	case Wide:
		return texture{angle: math.Pi / 4, spacing: 1.7 * fine}
	case Falling:
		return texture{angle: math.Pi / 4, spacing: fine}
	case Level:
		return texture{angle: 0, spacing: fine}
	case Upright:
		return texture{angle: math.Pi / 2, spacing: fine}
	case Dots:
		return texture{angle: math.Pi / 6, spacing: fine * 1.15, dots: true}
	}
	return texture{}
}

// radius is that of the dots.
func (t texture) radius() float64 { return float64(t.spacing * 0.17) }

// spansOn calls visit for each stretch of the texture's lines inside a path,
// with what turns a place on the line to one on the page. The lines hang on
// one lattice for the whole page, so that neighbouring shapes continue each
// other.
func (t texture) spansOn(shape *Path, visit func(r row, s span, at func(x float64) carto.Pixel)) {
	sin, cos := sincos(t.angle)
	turned := func(q carto.Pixel) carto.Pixel {
		return carto.Pixel{X: float64(q.X*cos) + float64(q.Y*sin), Y: float64(q.Y*cos) - float64(q.X*sin)}
	}
	for _, r := range scanlines(shape, t.spacing, turned) {
		y := (float64(r.index) + 0.5) * t.spacing
		at := func(x float64) carto.Pixel {
			return carto.Pixel{X: float64(x*cos) - float64(y*sin), Y: float64(x*sin) + float64(y*cos)}
		}
		for _, s := range r.spans {
			visit(r, s, at)
		}
	}
}

// linesOn returns the lines of the texture inside a path.
func (t texture) linesOn(shape *Path) *Path {
	var out Path
	t.spansOn(shape, func(_ row, s span, at func(float64) carto.Pixel) { out.Add(at(s.from), at(s.to)) })
	return &out
}

// dotsOn returns the centres of the texture's dots inside a path.
func (t texture) dotsOn(shape *Path) []carto.Pixel {
	var out []carto.Pixel
	t.spansOn(shape, func(r row, s span, at func(float64) carto.Pixel) {
		offset := float64(r.index&1) / 2
		for k := math.Ceil((s.from+t.radius())/t.spacing - offset); (k+offset)*t.spacing <= s.to-t.radius(); k++ {
			out = append(out, at((k+offset)*t.spacing))
		}
	})
	return out
}
