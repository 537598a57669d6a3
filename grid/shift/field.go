package shift

import (
	"fmt"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
)

// Fate is what became of a cell. The zero value is ground without normals in
// either.
type Fate uint8

const (
	Nothing    Fate = iota // no normals in either
	Moved                  // a day in both, be it the same
	Gained                 // a day in the second, and a reason for none in the first
	Lost                   // a day in the first, and a reason for none in the second
	Undated                // normals and no day in both, for the same reason or another
	OnlyBefore             // normals in the first only
	OnlyAfter              // normals in the second only
)

// Fates lists all of them in their order.
var Fates = [...]Fate{Nothing, Moved, Gained, Lost, Undated, OnlyBefore, OnlyAfter}

// fateOf returns what became of a cell by its two reasons.
func fateOf(before, after crossing.Reason) Fate {
	switch {
	case before == crossing.NoData && after == crossing.NoData:
		return Nothing
	case after == crossing.NoData:
		return OnlyBefore
	case before == crossing.NoData:
		return OnlyAfter
	case before.HasDay() && after.HasDay():
		return Moved
	case after.HasDay():
		return Gained
	case before.HasDay():
		return Lost
	}
	return Undated
}

// Field is how a window's crossing moved. Its rasters share a grid.
type Field struct {
	Days  *grid.Raster[float32] // by how many days the second is later, −182.5 to less than 182.5, where both have a day
	Weeks *grid.Raster[int8]    // by how many weeks, as WeeksLater counts, there too
	Fate  *grid.Raster[Fate]    // every cell that has normals in either

	// ReasonKm2 is the area in km² by the reason before and the one after.
	ReasonKm2 [len(crossing.Reasons)][len(crossing.Reasons)]float64
}

// Between returns how a window's crossing moved from one layer to another. It
// returns an error when they lie on different grids: bring one onto the grid
// of the other first.
func Between(before, after Layer) (*Field, error) {
	g := before.Day.Grid()
	if !g.Matches(after.Day.Grid()) {
		return nil, fmt.Errorf("days lie on %v and on %v; bring both editions to one grid to compare them", g, after.Day.Grid())
	}
	for _, l := range []Layer{before, after} {
		if l.Reason != nil && !l.Reason.Grid().Matches(g) {
			return nil, fmt.Errorf("days lie on %v, their reasons on %v; both must share one grid", g, l.Reason.Grid())
		}
	}
	f := &Field{Days: grid.NewRaster[float32](g), Weeks: grid.NewRaster[int8](g), Fate: grid.NewRaster[Fate](g)}
	for row := range g.Rows() {
		area := g.CellArea(row)
		for col := range g.Cols() {
			f.add(grid.Cell{Row: row, Col: col}, before, after, area)
		}
	}
	return f, nil
}

// add notes what became of one cell.
func (f *Field) add(c grid.Cell, before, after Layer, km2 float64) {
	was, is := reasons(before, after, c)
	f.ReasonKm2[was][is] += km2
	fate := fateOf(was, is)
	if fate == Nothing {
		return
	}
	f.Fate.Set(c, fate)
	if fate == Moved {
		old, _ := before.Day.At(c)
		new, _ := after.Day.At(c)
		f.Days.Set(c, float32(season.Day(old).Apart(season.Day(new))))
		f.Weeks.Set(c, int8(WeeksLater(season.Day(old).Week(), season.Day(new).Week())))
	}
}

// Grid returns the grid the field lies on.
func (f *Field) Grid() grid.Grid { return f.Days.Grid() }
