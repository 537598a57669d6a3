package zonal

import (
	"math"
	"sync"

	"weekband/grid/crossing"
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
	ground  account // all cells
}

// Cells is what one window gives on rows [First, First+Rows) of a grid, row by
// row from the north-west. Reason is NoData where a cell has no normals; the
// others mean something only where it has a day.
type Cells struct {
	First, Rows           int
	Reason                []crossing.Reason
	Day                   []float32 // of the year, in [1, 366)
	OntimeFrom, CatchupTo []float32 // days within a year or so before Day, and after it
	Error                 []float32 // standard error of Day, days; nil when not known
}

// account is what is summed up of one region, or of all ground.
type account struct {
	mu     sync.Mutex
	reason [len(crossing.Reasons)]uint64

	day, from, to, error bins
}

// Tables tell tenths of a day of the crossing and of its error, and dates of
// the other two: those need bins of whole days only.
const (
	mostDays   = 768
	mostErrors = 192
	errorLevel = 2 // 1/16 of a day
)

// wholeGrid is the area of a grid in units, or up to half of it, so that what a
// region covers stays within 64 bits.
const wholeGrid = 1 << 62

// NewTally makes ready to sum up one window.
func NewTally(s *Sweep) *Tally {
	t := &Tally{sweep: s, regions: make([]account, len(s.outlines))}
	_, exp := math.Frexp(s.grid.Box().Area())
	t.perKm2 = math.Ldexp(wholeGrid, -exp)
	for i := range t.regions {
		t.regions[i].open()
	}
	t.ground.open()
	return t
}

// open sets how wide bins are.
func (a *account) open() {
	a.day.most = mostDays
	a.from.level, a.to.level = wholeDays, wholeDays
	a.error.level, a.error.most = errorLevel, mostErrors
}

// Add adds a block; covered are what Sweep.Rows gives for its rows. Every row of
// the grid must be added once.
func (t *Tally) Add(b *Cells, covered []Covered) {
	units := make([]float64, b.Rows) // of a cell
	for row := range units {
		units[row] = t.sweep.grid.CellArea(b.First+row) * t.perKm2
	}
	cols := t.sweep.grid.Cols()
	for _, s := range covered {
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
	t.ground.mu.Lock()
	defer t.ground.mu.Unlock()
	for row, w := range units {
		t.ground.add(b, row*cols, (row+1)*cols, uint64(math.Round(w)))
	}
}

// add adds cells [from, to) of a block, each of which weighs w.
func (a *account) add(b *Cells, from, to int, w uint64) {
	before, after, error := pending{into: &a.from}, pending{into: &a.to}, pending{into: &a.error}
	for i := from; i < to; i++ {
		why := b.Reason[i]
		a.reason[why] += w
		if !why.HasDay() {
			continue
		}
		week := weekOf(b.Day[i])
		a.day.add(keyOf(b.Day[i], week), w)
		before.add(keyOf(b.OntimeFrom[i], week), w)
		after.add(keyOf(b.CatchupTo[i], week), w)
		if b.Error != nil {
			error.add(keyOf(b.Error[i], 1), w)
		}
	}
	before.flush()
	after.flush()
	error.flush()
}

// pending is weight on its way to a bin: that of neighbouring cells goes there
// together when the bin is the same.
type pending struct {
	into   *bins
	key    uint32 // of the first of the cells
	weight uint64
}

func (p *pending) add(key uint32, weight uint64) {
	if level := p.into.level; widened(key, level) != widened(p.key, level) {
		p.flush()
		p.key = key
	}
	p.weight += weight
}

func (p *pending) flush() {
	if p.weight > 0 {
		p.into.add(p.key, p.weight)
		p.weight = 0
	}
}
