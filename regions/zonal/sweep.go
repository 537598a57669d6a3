package zonal

import (
	"weekband/grid"
	"weekband/grid/abreast"
	"weekband/regions"
)

// Sweep tells what regions cover of any rows of a grid, without ever holding
// what they cover of all. It keeps the edges of their outlines only. It is
// read-only once made: several goroutines may ask it at a time.
type Sweep struct {
	grid     grid.Grid
	outlines []outline
}

// Covered is what one region covers of some rows.
type Covered struct {
	Region int   // index in the set
	Runs   []Run // sorted by row, then column; rows count from the grid's first
}

// NewSweep makes ready to tell what the regions of a set cover of a grid.
func NewSweep(set regions.Set, g grid.Grid) *Sweep {
	s := &Sweep{grid: g, outlines: make([]outline, len(set.Regions))}
	abreast.Each(len(set.Regions), func(i int) {
		s.outlines[i] = outlineOf(set.Regions[i].Shape, g)
	})
	return s
}

// Outside returns the area in km² of the part of a region off the grid.
func (s *Sweep) Outside(region int) float64 { return s.outlines[region].outside }

// Rows returns what regions cover of rows [first, first+rows), for those that
// cover any of them, in the order of the set. The runs are those of Cover, to
// the last bit. It panics when they are not rows of the grid.
func (s *Sweep) Rows(first, rows int) []Covered {
	if first < 0 || rows < 0 || first+rows > s.grid.Rows() {
		panic("zonal: rows off the grid")
	}
	var row scanRow
	var runs []Run
	var covered []Covered
	var ends []int // of the runs of each strip
	for i := range s.outlines {
		before := len(runs)
		if o := &s.outlines[i]; o.reaches(first, first+rows) {
			runs = o.cover(first, first+rows, &row, runs)
		}
		if len(runs) > before {
			covered, ends = append(covered, Covered{Region: i}), append(ends, len(runs))
		}
	}
	from := 0
	for i, end := range ends {
		covered[i].Runs, from = runs[from:end:end], end
	}
	return covered
}
