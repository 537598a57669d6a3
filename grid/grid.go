package grid

import (
	"errors"
	"fmt"
	"math"
)

// LonLat is a position in degrees, east and north positive, on WGS 84.
type LonLat struct{ Lon, Lat float64 }

// Box is a rectangle of longitudes and latitudes in degrees, with
// West < East and South < North. A box never crosses the antimeridian.
type Box struct{ West, South, East, North float64 }

// Contains reports whether p lies in the box, edges included.
func (b Box) Contains(p LonLat) bool {
	return p.Lon >= b.West && p.Lon <= b.East && p.Lat >= b.South && p.Lat <= b.North
}

// Overlaps reports whether the two boxes share some area.
func (b Box) Overlaps(o Box) bool {
	return b.West < o.East && o.West < b.East && b.South < o.North && o.South < b.North
}

// Center returns the middle of the box.
func (b Box) Center() LonLat {
	return LonLat{Lon: (b.West + b.East) / 2, Lat: (b.South + b.North) / 2}
}

// String writes the box as its four edges in degrees.
func (b Box) String() string {
	return fmt.Sprintf("west %.6g, south %.6g, east %.6g, north %.6g", b.West, b.South, b.East, b.North)
}

// Cell names one cell of a Grid: Row counts from the north, Col from the
// west, both from 0.
type Cell struct{ Row, Col int }

// Grid is a regular grid of cells in longitude and latitude. The zero value
// has no cells.
type Grid struct {
	box        Box
	rows, cols int
}

// maxCells bounds what New accepts: 100,000 × 50,000 cells is a world at 13
// arc-seconds; beyond it a header is taken for a mistake.
const maxCells = 5_000_000_000

// New returns the grid whose cells fill box, given by its outer edges, with
// the given numbers of rows and columns. It returns an error when a count is
// not positive, an edge is not a finite number, the box is empty, leaves
// latitudes −90 to 90 or longitudes −180 to 180, or crosses the antimeridian.
// Edges are kept to 1e-9 degrees.
func New(box Box, rows, cols int) (Grid, error) {
	for _, v := range []float64{box.West, box.South, box.East, box.North} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return Grid{}, errors.New("grid: an edge of the box is not a finite number")
		}
	}
	const tolDeg = 1e-6 // headers print rounded steps; a world grid may end at 180.0000003
	switch {
	case rows <= 0 || cols <= 0:
		return Grid{}, fmt.Errorf("grid: %d rows and %d columns; both must be at least 1", rows, cols)
	case float64(rows)*float64(cols) > maxCells:
		return Grid{}, fmt.Errorf("grid: %d × %d cells are more than %d", rows, cols, int64(maxCells))
	case box.South < -90-tolDeg || box.North > 90+tolDeg || box.South >= box.North:
		return Grid{}, fmt.Errorf("grid: latitudes %.6g to %.6g must rise and lie in -90 to 90", box.South, box.North)
	case box.West >= box.East:
		return Grid{}, fmt.Errorf("grid: longitudes %.6g to %.6g must rise; a box across the antimeridian is not supported, split it at 180", box.West, box.East)
	case box.West < -180-tolDeg || box.East > 180+tolDeg:
		return Grid{}, fmt.Errorf("grid: longitudes %.6g to %.6g must lie in -180 to 180", box.West, box.East)
	}
	box = Box{
		West: max(kept(box.West), -180), East: min(kept(box.East), 180),
		South: max(kept(box.South), -90), North: min(kept(box.North), 90),
	}
	if box.West >= box.East || box.South >= box.North {
		return Grid{}, fmt.Errorf("grid: the box %v is too small for its edges to be told apart", box)
	}
	return Grid{box: box, rows: rows, cols: cols}, nil
}

// kept rounds an edge to 1e-9 degrees, a tenth of a millimetre: formats write
// the same edge with other last digits, and the grid must be the same.
func kept(edge float64) float64 { return math.Round(edge*1e9) / 1e9 }

// Box returns the outer edges of the grid.
func (g Grid) Box() Box { return g.box }

// Rows returns the number of rows.
func (g Grid) Rows() int { return g.rows }

// Cols returns the number of columns.
func (g Grid) Cols() int { return g.cols }

// Cells returns the number of cells.
func (g Grid) Cells() int { return g.rows * g.cols }

// StepLon returns the width of a cell in degrees.
func (g Grid) StepLon() float64 { return (g.box.East - g.box.West) / float64(g.cols) }

// StepLat returns the height of a cell in degrees.
func (g Grid) StepLat() float64 { return (g.box.North - g.box.South) / float64(g.rows) }

// Center returns the middle of a cell.
func (g Grid) Center(c Cell) LonLat {
	return LonLat{
		Lon: g.box.West + float64((float64(c.Col)+0.5)*g.StepLon()),
		Lat: g.box.North - float64((float64(c.Row)+0.5)*g.StepLat()),
	}
}

// Bounds returns the outline of a cell.
func (g Grid) Bounds(c Cell) Box {
	return Box{West: g.lon(c.Col), East: g.lon(c.Col + 1), North: g.lat(c.Row), South: g.lat(c.Row + 1)}
}

// lon is the western edge of a column; lon(cols) is the eastern edge of the
// grid. lat likewise. Both return the box's own edges exactly.
func (g Grid) lon(col int) float64 {
	if col == g.cols {
		return g.box.East
	}
	return g.box.West + float64(float64(col)*g.StepLon())
}

func (g Grid) lat(row int) float64 {
	if row == g.rows {
		return g.box.South
	}
	return g.box.North - float64(float64(row)*g.StepLat())
}

// Position returns p in cells from the north-western corner of the grid: the
// centre of the first cell is (0.5, 0.5). Positions outside the grid are
// negative or past the counts.
func (g Grid) Position(p LonLat) (row, col float64) {
	return (g.box.North - p.Lat) / g.StepLat(), (p.Lon - g.box.West) / g.StepLon()
}

// Locate returns the cell that holds p. A point on an inner edge belongs to
// the cell south or east of it; the grid's own southern and eastern edges
// belong to the last row and column. ok is false outside the grid.
func (g Grid) Locate(p LonLat) (c Cell, ok bool) {
	if g.rows == 0 || !g.box.Contains(p) {
		return Cell{}, false
	}
	row, col := g.Position(p)
	return Cell{Row: min(int(row), g.rows-1), Col: min(int(col), g.cols-1)}, true
}

// Slice returns the grid of rows [first, first+rows) with all columns. It
// panics when they are not rows of g.
func (g Grid) Slice(first, rows int) Grid {
	if first < 0 || rows <= 0 || first+rows > g.rows {
		panic(fmt.Sprintf("grid: rows %d to %d of %d", first, first+rows, g.rows))
	}
	box := g.box
	box.North, box.South = g.lat(first), g.lat(first+rows)
	return Grid{box: box, rows: rows, cols: g.cols}
}

// Matches reports whether both grids have the same counts and edges that
// agree to a thousandth of a cell.
func (g Grid) Matches(o Grid) bool {
	if g.rows != o.rows || g.cols != o.cols {
		return false
	}
	tolLon, tolLat := g.StepLon()/1000, g.StepLat()/1000 // headers round differently
	return math.Abs(g.box.West-o.box.West) <= tolLon && math.Abs(g.box.East-o.box.East) <= tolLon &&
		math.Abs(g.box.South-o.box.South) <= tolLat && math.Abs(g.box.North-o.box.North) <= tolLat
}

// String describes the grid for messages.
func (g Grid) String() string {
	return fmt.Sprintf("%d rows × %d columns, %v", g.rows, g.cols, g.box)
}
