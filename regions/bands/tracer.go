package bands

import (
	"fmt"
	"slices"

	"github.com/paulmach/orb"

	"weekband/grid"
)

// tracer collects the pieces of all lines, row by row. Positions are in
// cells: x to the east from the western edge, y to the north from the
// northern edge, so that y is not positive.
type tracer struct {
	field      Field
	breaks     []float64
	rows, cols int

	nodes  []node
	edges  []meshEdge
	pieces []piece

	above, below cellRow   // the rows of cells on both sides of a row of corners
	upper, lower cornerRow // the corners north and south of a row of cells
}

// node is a point where pieces meet.
type node struct {
	at   orb.Point
	edge int32   // the triangle edge it lies on; -1 for a corner of cells
	t    float64 // how far along that edge, in (0, 1)
}

// meshEdge is a triangle edge that contours cross, at nodes [first, last), in
// order of t.
type meshEdge struct {
	from, to    orb.Point
	first, last int32
	// level is the level that crosses at the first node; the others follow by
	// step, +1 or −1.
	level, step int32
}

// piece is a straight bit of line with the labels on its two sides.
type piece struct {
	from, to    int32 // nodes
	left, right int16
}

// cellRow is one row of cells with one cell outside added at each end.
type cellRow struct {
	label []int16 // band of the day, class, or outside
	dated []bool
	day   []float64
}

// cornerRow is one row of cell corners and of the sides between them.
type cornerRow struct {
	day  []float64 // mean of the days around; meaningless when there is none
	band []int16
	node []int32 // -1 while nothing needed it
	side []int32 // edge from this corner to the next one east, or -1
}

func newTracer(f Field, breaks []float64) *tracer {
	g := f.Day.Grid()
	t := &tracer{field: f, breaks: breaks, rows: g.Rows(), cols: g.Cols()}
	for _, r := range []*cellRow{&t.above, &t.below} {
		*r = cellRow{make([]int16, t.cols+2), make([]bool, t.cols+2), make([]float64, t.cols+2)}
	}
	for _, r := range []*cornerRow{&t.upper, &t.lower} {
		*r = cornerRow{make([]float64, t.cols+1), make([]int16, t.cols+1), make([]int32, t.cols+1), make([]int32, t.cols+1)}
	}
	return t
}

// run goes through the grid once. At corner row r the row of cells above is
// r−1, the row below is r.
func (t *tracer) run() error {
	for i := range t.above.label {
		t.above.label[i] = outside
	}
	for r := range t.rows + 1 {
		if err := t.load(r); err != nil {
			return err
		}
		t.corners()
		t.sidesAlong(r)
		if r > 0 {
			t.cells(r - 1)
		}
		t.above, t.below = t.below, t.above
		t.upper, t.lower = t.lower, t.upper
	}
	return nil
}

// load reads row r of cells into below; past the last row all is outside.
func (t *tracer) load(r int) error {
	b := t.below
	for i := range b.label {
		b.label[i], b.dated[i] = outside, false
	}
	if r == t.rows {
		return nil
	}
	if t.field.Class != nil {
		classes, has := t.field.Class.Row(r)
		for c, ok := range has {
			if ok && classes[c] > 0 {
				b.label[c+1] = int16(len(t.breaks)) + int16(classes[c])
			}
		}
	}
	days, has := t.field.Day.Row(r)
	band := int16(0)
	for c, ok := range has {
		if !ok {
			continue
		}
		day := float64(days[c])
		if day-day != 0 { // only of numbers that are finite is it 0
			return fmt.Errorf("bands: the day of %+v is %v; leave such cells empty", grid.Cell{Row: r, Col: c}, day)
		}
		band = t.bandNear(day, band)
		b.label[c+1], b.dated[c+1], b.day[c+1] = band, true, day
	}
	return nil
}

// bandNear is bandOf, quick when the band is the one guessed.
func (t *tracer) bandNear(v float64, guess int16) int16 {
	if g := int(guess); (g == 0 || t.breaks[g-1] <= v) && (g == len(t.breaks) || v < t.breaks[g]) {
		return guess
	}
	return t.bandOf(v)
}

// bandOf returns the number of breaks at or below v: a value exactly at a
// break belongs above it.
func (t *tracer) bandOf(v float64) int16 {
	i, equal := slices.BinarySearch(t.breaks, v)
	if equal {
		i++
	}
	return int16(i)
}

// corners gives the corners between the two rows of cells their days, into
// lower.
func (t *tracer) corners() {
	above, below, low := &t.above, &t.below, &t.lower
	band, n := int16(0), t.cols+1
	aboveDated, belowDated, aboveDay, belowDay := above.dated[:n+1], below.dated[:n+1], above.day[:n+1], below.day[:n+1]
	node, side, day, bands := low.node[:n], low.side[:n], low.day[:n], low.band[:n]
	for c := range n {
		node[c], side[c] = -1, -1
		if aboveDated[c] && aboveDated[c+1] && belowDated[c] && belowDated[c+1] { // as nearly everywhere
			day[c] = (aboveDay[c] + aboveDay[c+1] + belowDay[c] + belowDay[c+1]) / 4
			band = t.bandNear(day[c], band)
			bands[c] = band
			continue
		}
		sum, n := 0.0, 0.0
		for _, row := range [2]*cellRow{above, below} {
			for i := c; i <= c+1; i++ { // the padded cells west and east
				if row.dated[i] {
					sum += row.day[i]
					n++
				}
			}
		}
		if n > 0 {
			low.day[c] = sum / n
			band = t.bandNear(sum/n, band)
			low.band[c] = band
		}
	}
}

// cornerNode returns the node of a corner, made when first needed.
func (t *tracer) cornerNode(row *cornerRow, r, c int) int32 {
	if row.node[c] < 0 {
		row.node[c] = int32(len(t.nodes))
		t.nodes = append(t.nodes, node{at: corner(r, c), edge: -1})
	}
	return row.node[c]
}

func corner(r, c int) orb.Point { return orb.Point{float64(c), float64(-r)} }
