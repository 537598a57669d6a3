package zonal

import (
	"math"
	"sync"

	"weekband/grid/crossing"
	"weekband/grid/season"
)

// Tally sums up what one window gives in every region of a Sweep, block of rows
// by block of rows, and keeps no cell. Blocks may come in any order and from
// several goroutines: areas are whole numbers of a small unit, so the result
// is the same.
//
// A region takes some 10 to 20 kB, and up to 70 kB where it has crossings in
// all weeks of the year.
type Tally struct {
	sweep   *Sweep
	perKm2  float64 // units of area
	regions []account
	ground  account // of all cells, without days
}

// Block is what one window gives on rows [First, First+Rows) of a grid, row by
// row from the north-west. Reason is NoData where a cell has no normals; the
// others mean something only where it has a day.
type Block struct {
	First, Rows           int
	Reason                []crossing.Reason
	Day                   []float32 // of the year, in [1, 366)
	OntimeFrom, CatchupTo []float32 // days, the last before Day and the first after it
	Error                 []float32 // standard error of Day, days; nil when not known
}

// account is what is summed up of one region.
type account struct {
	mu     sync.Mutex
	reason [len(crossing.Reasons)]uint64
	weeks  [season.Weeks + 1]uint64

	day, from, to, error bins
}

// Entries of the histograms of a region before their bins are widened. Of the
// crossing day tables tell tenths of a day, of the others dates; those have
// entries for several weeks of crossing.
const (
	mostDays   = 768
	mostOthers = 192
)

// wholeGrid is the area of a grid in units, or up to half of it, so that what a
// region covers stays within 64 bits.
const wholeGrid = 1 << 62

// NewTally makes ready to sum up one window.
func NewTally(s *Sweep) *Tally {
	t := &Tally{sweep: s, regions: make([]account, s.Regions())}
	_, exp := math.Frexp(s.grid.Box().Area())
	t.perKm2 = math.Ldexp(wholeGrid, -exp)
	for i := range t.regions {
		a := &t.regions[i]
		a.day.most, a.from.most, a.to.most, a.error.most = mostDays, mostOthers, mostOthers, mostOthers
	}
	return t
}

// Add adds a block; strips are what Sweep.Rows gives for its rows. Every row of
// the grid must be added once.
func (t *Tally) Add(b *Block, strips []Strip) {
	units := make([]float64, b.Rows) // of a cell
	for row := range units {
		units[row] = t.sweep.grid.CellArea(b.First+row) * t.perKm2
	}
	cols := t.sweep.grid.Cols()
	for _, s := range strips {
		a := &t.regions[s.Region]
		a.mu.Lock()
		for _, run := range s.Runs {
			row := int(run.Row) - b.First
			if w := uint64(math.Round(units[row] * run.Share)); w > 0 {
				a.add(b, row*cols+int(run.From), row*cols+int(run.To), w)
			}
		}
		a.mu.Unlock()
	}
	t.addGround(b, units)
}

// add adds cells [from, to) of a block, each of which weighs w.
func (a *account) add(b *Block, from, to int, w uint64) {
	for i := from; i < to; i++ {
		why := b.Reason[i]
		a.reason[why] += w
		if !why.HasDay() {
			continue
		}
		week := weekOf(b.Day[i])
		a.weeks[week] += w
		a.day.add(keyOf(b.Day[i], week), w)
		a.from.add(keyOf(b.OntimeFrom[i], week), w)
		a.to.add(keyOf(b.CatchupTo[i], week), w)
		if b.Error != nil {
			a.error.add(keyOf(b.Error[i], 1), w)
		}
	}
}

// addGround adds all cells of a block to the sums over the grid.
func (t *Tally) addGround(b *Block, units []float64) {
	var sum account
	cols := t.sweep.grid.Cols()
	for row := range b.Rows {
		w := uint64(math.Round(units[row]))
		for i := row * cols; i < (row+1)*cols; i++ {
			why := b.Reason[i]
			sum.reason[why] += w
			if why.HasDay() {
				sum.weeks[weekOf(b.Day[i])] += w
			}
		}
	}
	t.ground.mu.Lock()
	defer t.ground.mu.Unlock()
	for i, w := range sum.reason {
		t.ground.reason[i] += w
	}
	for i, w := range sum.weeks {
		t.ground.weeks[i] += w
	}
}
