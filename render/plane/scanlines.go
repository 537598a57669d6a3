package plane

import (
	"cmp"
	"math"
	"slices"
)

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
func scanlines(shape *Path, step float64, turned func(Pixel) Pixel) []row {
	var rings [][]Pixel
	low, high := math.Inf(1), math.Inf(-1)
	for _, l := range shape.Lines {
		if !l.Closed {
			continue
		}
		ring := make([]Pixel, len(l.Points))
		for i, q := range l.Points {
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
func cross(ring []Pixel, step float64, first int, hits [][]hit) {
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
