package bands_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	orbplanar "github.com/paulmach/orb/planar"

	"weekband/grid"
	"weekband/regions/arcs"
	"weekband/regions/bands"
	"weekband/regions/internal/planar"
)

// mustBeValid fails the test unless the bands of a field are simple polygons
// that fill the field and share their edges.
func mustBeValid(t interface {
	Fatalf(string, ...any)
	Helper()
}, f bands.Field, set bands.Set,
) {
	t.Helper()
	var lines []orb.LineString
	area := 0.0
	for _, b := range set.Bands {
		for p, polygon := range b.Shape {
			for i, ring := range polygon {
				if err := simple(ring, i == 0); err != nil {
					t.Fatalf("band %d class %d polygon %d ring %d: %v", b.Index, b.Class, p, i, err)
				}
				lines = append(lines, orb.LineString(ring))
			}
		}
		area += arcs.Area(b.Shape)
		if err := nested(b.Shape); err != nil {
			t.Fatalf("band %d class %d: %v", b.Index, b.Class, err)
		}
	}
	segments := planar.SegmentsOf(lines)
	if len(segments) > 0 {
		if err := planar.Check(segments); err != nil {
			t.Fatalf("%v", err)
		}
	}
	wantArea, wantOutline := extent(f)
	if math.Abs(area-wantArea) > 1e-9*wantArea {
		t.Fatalf("the bands cover %v square degrees, the cells %v", area, wantArea)
	}
	outline := 0.0
	for s, uses := range segments {
		if uses[0] > 1 || uses[1] > 1 {
			t.Fatalf("segment %v bounds %v bands on one side", s, uses)
		}
		if uses[0] != uses[1] {
			outline += math.Hypot(s[1][0]-s[0][0], s[1][1]-s[0][1])
		}
	}
	if math.Abs(outline-wantOutline) > 1e-9*wantOutline {
		t.Fatalf("edges without a neighbour are %v degrees long, the outline of the cells %v", outline, wantOutline)
	}
}

func simple(ring orb.Ring, outer bool) error {
	if len(ring) < 4 || ring[0] != ring[len(ring)-1] {
		return fmt.Errorf("%d positions, closed %v", len(ring), ring[0] == ring[len(ring)-1])
	}
	seen := map[orb.Point]bool{}
	for _, p := range ring[1:] {
		if seen[p] {
			return fmt.Errorf("passes %v twice", p)
		}
		seen[p] = true
	}
	if (arcs.SignedArea(ring) > 0) != outer {
		return fmt.Errorf("signed area %v", arcs.SignedArea(ring))
	}
	return nil
}

// nested checks that the smallest outer ring around each hole is that of its
// polygon.
func nested(shape orb.MultiPolygon) error {
	for p, polygon := range shape {
		for _, hole := range polygon[1:] {
			best := -1
			mid := orb.Point{hole[0][0]*0.4 + hole[1][0]*0.6, hole[0][1]*0.4 + hole[1][1]*0.6}
			for i, other := range shape {
				if orbplanar.RingContains(other[0], mid) &&
					(best < 0 || arcs.SignedArea(other[0]) < arcs.SignedArea(shape[best][0])) {
					best = i
				}
			}
			if best != p {
				return fmt.Errorf("hole at %v of polygon %d lies in polygon %d", hole[0], p, best)
			}
		}
	}
	return nil
}

// extent returns the area of the cells that have a day or a class, in square
// degrees, and the length of their outline in degrees.
func extent(f bands.Field) (area, outline float64) {
	g := f.Day.Grid()
	for row := range g.Rows() {
		for col := range g.Cols() {
			if !filled(f, row, col) {
				continue
			}
			b := g.Bounds(grid.Cell{Row: row, Col: col})
			area += (b.East - b.West) * (b.North - b.South)
			for _, n := range []struct {
				row, col int
				side     float64
			}{
				{row - 1, col, g.StepLon()}, {row + 1, col, g.StepLon()},
				{row, col - 1, g.StepLat()}, {row, col + 1, g.StepLat()},
			} {
				if !filled(f, n.row, n.col) {
					outline += n.side
				}
			}
		}
	}
	return area, outline
}

func filled(f bands.Field, row, col int) bool {
	g := f.Day.Grid()
	if row < 0 || col < 0 || row >= g.Rows() || col >= g.Cols() {
		return false
	}
	c := grid.Cell{Row: row, Col: col}
	if _, ok := f.Day.At(c); ok {
		return true
	}
	if f.Class == nil {
		return false
	}
	class, ok := f.Class.At(c)
	return ok && class > 0
}

// newField returns a field on the lopsided box used throughout, with days
// from a function of row and column; no day where it returns false.
func newField(t testing.TB, rows, cols int, day func(row, col int) (float64, bool)) bands.Field {
	t.Helper()
	g, err := grid.New(grid.Box{West: -91, South: 37, East: -84, North: 42}, rows, cols)
	if err != nil {
		t.Fatal(err)
	}
	f := bands.Field{Day: grid.NewRaster[float32](g), Class: grid.NewRaster[uint8](g)}
	for row := range rows {
		for col := range cols {
			if d, ok := day(row, col); ok {
				f.Day.Set(grid.Cell{Row: row, Col: col}, float32(d))
			}
		}
	}
	return f
}

// inCells returns a shape in cells from the north-western corner.
func inCells(g grid.Grid, shape orb.MultiPolygon) orb.MultiPolygon {
	shape = shape.Clone()
	for _, polygon := range shape {
		for _, ring := range polygon {
			for i, p := range ring {
				y, x := g.Position(grid.LonLat{Lon: p[0], Lat: p[1]})
				ring[i] = orb.Point{x, y}
			}
		}
	}
	return shape
}
