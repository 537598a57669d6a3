package render

import (
	"cmp"
	"math"
	"slices"

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

// sincos returns sine and cosine to 2⁻⁴⁰. Their last bits are not the same on
// every machine, and lines at round angles run through corners of what they
// fill.
func sincos(angle float64) (sin, cos float64) {
	const steps = 1 << 40
	sin, cos = math.Sincos(angle)
	return float64(math.RoundToEven(sin*steps) / steps), float64(math.RoundToEven(cos*steps) / steps)
}

// circle returns a regular polygon of n corners.
func circle(c carto.Pixel, radius float64, n int) []carto.Pixel {
	ring := make([]carto.Pixel, n)
	for i := range ring {
		sin, cos := sincos(2 * math.Pi * float64(i) / float64(n))
		ring[i] = carto.Pixel{X: c.X + float64(radius*cos), Y: c.Y + float64(radius*sin)}
	}
	return ring
}

// span is a stretch of a scan line inside a shape.
type span struct{ from, to float64 }

// row is the inside of a shape along one scan line, y = (index+½)·step.
type row struct {
	index int
	spans []span
}

// hit is a place where an edge meets a scan line, +1 when the edge runs down.
type hit struct {
	x    float64
	wind int
}

// scanlines returns the inside of a path along equidistant lines, after the
// points were passed through turned. Inside is where the rings wind around a
// place.
func scanlines(shape *Path, step float64, turned func(carto.Pixel) carto.Pixel) []row {
	var rings [][]carto.Pixel
	low, high := math.Inf(1), math.Inf(-1)
	for _, l := range shape.lines {
		if !l.closed {
			continue
		}
		ring := make([]carto.Pixel, len(l.points))
		for i, q := range l.points {
			ring[i] = turned(q)
			low, high = min(low, ring[i].Y), max(high, ring[i].Y)
		}
		rings = append(rings, ring)
	}
	if len(rings) == 0 {
		return nil
	}
	first := int(math.Floor(low / step))
	hits := make([][]hit, int(math.Floor(high/step))-first+1)
	for _, ring := range rings {
		cross(ring, step, first, hits)
	}
	rows := make([]row, len(hits))
	for i, h := range hits {
		rows[i] = row{index: first + i, spans: inside(h)}
	}
	return rows
}

// cross adds the hits of a ring; hits[0] belongs to scan line first.
func cross(ring []carto.Pixel, step float64, first int, hits [][]hit) {
	a := ring[len(ring)-1]
	for _, b := range ring {
		lo, hi, wind := a, b, 1
		if lo.Y > hi.Y {
			lo, hi, wind = b, a, -1
		}
		for k := int(math.Ceil(lo.Y/step - 0.5)); (float64(k)+0.5)*step < hi.Y; k++ {
			f := (float64((float64(k)+0.5)*step) - lo.Y) / (hi.Y - lo.Y)
			hits[k-first] = append(hits[k-first], hit{x: lo.X + float64(f*(hi.X-lo.X)), wind: wind})
		}
		a = b
	}
}

// inside joins the hits of one scan line to spans.
func inside(hits []hit) []span {
	slices.SortFunc(hits, func(a, b hit) int { return cmp.Compare(a.x, b.x) })
	var spans []span
	wind := 0
	for i, h := range hits {
		if wind != 0 && h.x > hits[i-1].x {
			spans = append(spans, span{from: hits[i-1].x, to: h.x})
		}
		wind += h.wind
	}
	return spans
}
