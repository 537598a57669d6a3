package frame

import (
	"fmt"
	"math"

	"weekband/grid"
)

// Frame says where the cells of a file lie, in the file's own terms.
type Frame struct {
	West, North      float64 // outer edges in degrees
	StepLon, StepLat float64 // width and height of a cell in degrees, both positive
	Rows, Cols       int
	SouthFirst       bool // the first row of the file is the southernmost
}

// tolCells is how far, in cells, the edges of a file may be off before they
// count as somewhere else: headers print steps with few digits, and the
// error of one step adds up over all columns.
const tolCells = 0.05

// maxCount bounds rows and columns: the circle in steps of 0.1 arc seconds.
const maxCount = 360 * 36000

// minStep is the smallest cell in degrees, about a centimetre.
const minStep = 1e-7

// Placement maps the rows and columns of a grid to those of a file. The zero
// value maps nothing.
type Placement struct {
	grid    grid.Grid
	notes   []string
	file    Frame
	top     int // rows of the file dropped at the north
	roll    int // file column of the grid's first column
	circle  int // columns after which the file repeats itself
	turned  bool
	scratch *scratch
}

// Place returns the placement of a file's cells on a grid with row 0 north
// and longitudes −180 to 180.
//
// A file that covers the whole circle is rolled, and columns it repeats are
// dropped. A column that straddles the antimeridian and rows centred on the
// poles do not fit a regular grid and are dropped with a note. A file that
// covers part of the circle across the antimeridian is an error, as are
// steps that are not positive finite numbers.
func Place(f Frame) (Placement, error) {
	for _, v := range []float64{f.West, f.North, f.StepLon, f.StepLat} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return Placement{}, fmt.Errorf("the position of the cells is not a finite number (west %g, north %g, steps %g and %g degrees)",
				f.West, f.North, f.StepLon, f.StepLat)
		}
	}
	if f.StepLon <= 0 || f.StepLat <= 0 || f.Rows <= 0 || f.Cols <= 0 {
		return Placement{}, fmt.Errorf("%d rows × %d columns in steps of %g and %g degrees; all must be positive",
			f.Rows, f.Cols, f.StepLat, f.StepLon)
	}
	if f.Rows > maxCount || f.Cols > maxCount {
		return Placement{}, fmt.Errorf("%d rows × %d columns are more than %d; is the header damaged?", f.Rows, f.Cols, maxCount)
	}
	if math.Abs(f.West) > 720 || f.StepLon > 360 || f.StepLon < minStep || f.StepLat < minStep {
		return Placement{}, fmt.Errorf("cells of %g by %g degrees from longitude %g on are not longitudes and latitudes; are they metres of a projection? want degrees, by gdalwarp -t_srs EPSG:4326", f.StepLon, f.StepLat, f.West)
	}
	p := Placement{file: f, circle: f.Cols, scratch: newScratch(f.Cols)}
	box, rows := p.placeRows()
	cols, err := p.placeCols(&box)
	if err != nil {
		return Placement{}, err
	}
	p.turned = f.SouthFirst || p.roll != 0 || cols != f.Cols
	p.grid, err = grid.New(box, rows, cols)
	return p, err
}

// placeRows returns the latitudes of the grid and its number of rows.
func (p *Placement) placeRows() (grid.Box, int) {
	f := p.file
	north, south := f.North, f.North-float64(float64(f.Rows)*f.StepLat)
	rows, tol := f.Rows, float64(tolCells*f.StepLat)
	half := f.StepLat / 2
	if math.Abs(north-half-90) <= tol && rows > 2 {
		p.top, north, rows = 1, 90-half, rows-1
	}
	if math.Abs(south+half+90) <= tol && rows > 2 {
		south, rows = half-90, rows-1
	}
	if rows != f.Rows {
		p.notes = append(p.notes, "rows centred on a pole are left out: half of each lies beyond it")
	}
	return grid.Box{North: snap(north, 90, tol), South: snap(south, -90, tol)}, rows
}

// placeCols sets the longitudes of the box and returns the number of columns.
func (p *Placement) placeCols(box *grid.Box) (int, error) {
	f := p.file
	width, tol := float64(float64(f.Cols)*f.StepLon), float64(tolCells*f.StepLon)
	east := f.West + width
	if f.West >= -180-tol && east <= 180+tol {
		box.West, box.East = snap(f.West, -180, tol), snap(east, 180, tol)
		return f.Cols, nil
	}
	if width >= 360-tol {
		return p.rollCols(box)
	}
	turns := math.Floor((f.West + 180 + tol) / 360)
	west := f.West - float64(360*turns)
	east = west + width
	if east > 180+tol {
		return 0, fmt.Errorf("longitudes %.6g to %.6g cross the antimeridian; cut the file in two at 180", f.West, f.West+width)
	}
	box.West, box.East = snap(west, -180, tol), snap(east, 180, tol)
	return f.Cols, nil
}

// rollCols places a file that goes round the whole circle.
func (p *Placement) rollCols(box *grid.Box) (int, error) {
	f := p.file
	circle := math.Round(360 / f.StepLon)
	if off := math.Abs(360 - float64(circle*f.StepLon)); circle < 1 || off > tolCells*f.StepLon {
		return 0, fmt.Errorf("%d columns of %.9g degrees go round the whole circle, but 360 is not a whole number of them",
			f.Cols, f.StepLon)
	}
	p.circle = int(circle)
	if p.circle < f.Cols {
		p.notes = append(p.notes, fmt.Sprintf("the last %d of %d columns repeat the first and are left out", f.Cols-p.circle, f.Cols))
	}
	at := math.Mod((180-f.West)/f.StepLon, circle) // columns from the western edge to the antimeridian
	if at < 0 {
		at += circle
	}
	if math.Abs(at-math.Round(at)) <= tolCells {
		p.roll = int(math.Round(at)) % p.circle
		box.West, box.East = -180, 180
		return p.circle, nil
	}
	if p.circle == 1 {
		return 0, fmt.Errorf("one column of %g degrees straddles the antimeridian", f.StepLon)
	}
	first := math.Ceil(at)
	p.roll = int(first) % p.circle
	box.West = -180 + float64((first-at)*f.StepLon)
	box.East = box.West + float64((circle-1)*f.StepLon)
	p.notes = append(p.notes, "the column that straddles the antimeridian is left out: half of it lies on either side")
	return p.circle - 1, nil
}

// snap returns limit for a v beyond it by no more than tol.
func snap(v, limit, tol float64) float64 {
	if over := math.Abs(v) - math.Abs(limit); over > 0 && over <= tol && v*limit > 0 {
		return limit
	}
	return v
}

// Grid returns the grid.
func (p Placement) Grid() grid.Grid { return p.grid }

// Notes returns what a user should know about cells that were left out.
func (p Placement) Notes() []string { return p.notes }

// fileRow returns the row of the file, from 0 in its order, that fills a row of
// the grid.
func (p Placement) fileRow(row int) int {
	if p.file.SouthFirst {
		return p.file.Rows - 1 - p.top - row
	}
	return p.top + row
}

// Near reports whether two frames have the same counts and order, and edges
// that agree to a hundredth of a cell.
func (f Frame) Near(o Frame) bool {
	near := func(a, b, step float64) bool { return math.Abs(a-b) <= step/100 }
	return f.Rows == o.Rows && f.Cols == o.Cols && f.SouthFirst == o.SouthFirst &&
		near(f.West, o.West, f.StepLon) && near(f.North, o.North, f.StepLat) &&
		near(f.West+float64(f.StepLon*float64(f.Cols)), o.West+float64(o.StepLon*float64(o.Cols)), f.StepLon) &&
		near(f.North-float64(f.StepLat*float64(f.Rows)), o.North-float64(o.StepLat*float64(o.Rows)), f.StepLat)
}
