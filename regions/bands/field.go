package bands

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"weekband/grid"
)

// Field is what Trace draws. A cell has a day, or a class if it has no day,
// or lies outside. Both rasters share their grid.
type Field struct {
	// Day is continuous: neighbours on both sides of New Year must not jump.
	Day *grid.Raster[float32]
	// Class tells apart the cells without a day, by numbers from 1 (never,
	// always, …); 0 is as good as no value. Where there is a day it is
	// ignored. Class may be nil.
	Class *grid.Raster[uint8]
}

// Options say how lines are drawn. The zero value is the default.
type Options struct {
	// Simplify is how coarse inner lines become, in cells: bends whose
	// triangle is smaller than Simplify² go. 0 means 0.1, which no eye can
	// see where a cell is up to ten pixels wide; negative keeps every vertex.
	Simplify float64
	// Outline is how coarse the outline of the field may become, as Simplify.
	// 0 keeps the sides of cells, as a field needs that stands by itself; one
	// that is cut to a coast anyway does not. It means nothing when every
	// vertex is kept.
	Outline float64
	// Smooth is how often the zigzag that the triangles leave in contours is
	// evened out. 0 means 10 passes; negative none.
	Smooth int
}

// Band is the ground of one band or class.
type Band struct {
	// Class is 0 for a band of days, else the class of ground without a day.
	Class uint8
	// Index is the band, from 0: it holds breaks[Index-1] <= day <
	// breaks[Index], open at both ends of the list. It means nothing when
	// Class is not 0.
	Index int
	// Shape is in degrees and valid as RFC 7946 wants it: simple rings, outer
	// ones counter-clockwise, holes clockwise, touching at most in points.
	Shape orb.MultiPolygon
}

// Set is a field cut into bands: bands of days in order, then classes in
// order. Bands without ground are left out.
type Set struct{ Bands []Band }

// outside is the label of cells with neither day nor class. Bands have labels
// from 0, classes follow them.
const outside int16 = -1

// Trace cuts a field into bands. It returns an error when breaks are not
// finite and strictly ascending or too many, when the rasters lie on
// different grids, or when a day is not a finite number.
func Trace(f Field, breaks []float64, o Options) (Set, error) {
	if err := f.check(breaks); err != nil {
		return Set{}, err
	}
	t := newTracer(f, breaks)
	if err := t.run(); err != nil {
		return Set{}, err
	}
	arcs := t.chain()
	t.smooth(arcs, o.passes())
	lines := t.lines(arcs, o.tolerance(), o.Outline)
	return t.assemble(arcs, lines), nil
}

func (o Options) passes() int {
	if o.Smooth == 0 {
		return 10
	}
	return max(o.Smooth, 0)
}

func (o Options) tolerance() float64 {
	if o.Simplify == 0 {
		return 0.1
	}
	return o.Simplify
}

// maxBreaks leaves room for the classes in a label of 16 bits.
const maxBreaks = 32000

func (f Field) check(breaks []float64) error {
	if f.Class != nil && !f.Class.Grid().Matches(f.Day.Grid()) {
		return fmt.Errorf("bands: days on %v, classes on %v; both must share one grid", f.Day.Grid(), f.Class.Grid())
	}
	if len(breaks) > maxBreaks {
		return fmt.Errorf("bands: %d breaks; at most %d", len(breaks), maxBreaks)
	}
	for i, b := range breaks {
		if math.IsNaN(b) || math.IsInf(b, 0) || i > 0 && b <= breaks[i-1] {
			return fmt.Errorf("bands: break %d is %v; breaks must be finite and rise", i, b)
		}
	}
	return nil
}
