package zonal

import (
	"cmp"
	"slices"
)

// Overlap is ground of a region that earlier ones of its set have too.
type Overlap struct {
	Region  int     // index in the set
	Other   int     // the earlier region that has most of it, or nearly so
	AreaKm2 float64 // at least so much
}

// Overlaps returns the regions that lie over earlier ones, in order, from the
// coverages of a set on one grid. Two regions are known to overlap by what
// their shares of a cell exceed the whole cell, so the areas are lower bounds
// where regions are small against cells: ground that is covered k times counts
// k − 1 times in all.
func Overlaps(covers []Coverage) []Overlap {
	t := overlaps{list: make([]Overlap, len(covers)), votes: make([]float64, len(covers))}
	for i := range t.list {
		t.list[i].Region = i
	}
	if len(covers) > 0 {
		t.change = make([]float64, covers[0].Grid.Cols()+1)
	}
	next := make([]int, len(covers))
	var spans []stretch
	for row := 0; len(covers) > 0 && row < covers[0].Grid.Rows(); row++ {
		spans = spans[:0]
		clear(t.change)
		for i, c := range covers {
			for next[i] < len(c.Runs) && int(c.Runs[next[i]].Row) == row {
				run := c.Runs[next[i]]
				spans = append(spans, stretch{run, i})
				t.change[run.From] += run.Share
				t.change[run.To] -= run.Share
				next[i]++
			}
		}
		if t.full() {
			t.row(spans, covers[0].Grid.CellArea(row))
		}
	}
	return slices.DeleteFunc(t.list, func(o Overlap) bool { return o.AreaKm2 == 0 })
}

// stretch is a run of a region.
type stretch struct {
	Run
	region int
}

type overlaps struct {
	list  []Overlap
	votes []float64 // by how much Other is ahead of further regions, km²

	change []float64 // along a row, of the sum of all shares
}

// shareTol is by how much of a cell shares may add to more than 1: they are
// sums of many pieces.
const shareTol = 1e-9

// full reports whether any cell of the row is covered more than once: of most
// rows none is.
func (t *overlaps) full() bool {
	sum := 0.0
	for _, d := range t.change {
		if sum += d; sum > 1+shareTol {
			return true
		}
	}
	return false
}

// row adds what runs of one row have in common.
func (t *overlaps) row(spans []stretch, cellKm2 float64) {
	slices.SortFunc(spans, func(a, b stretch) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.region, b.region)) })
	var active []stretch
	for at := int32(0); len(spans) > 0 || len(active) > 1; {
		if len(active) == 0 {
			at = spans[0].From
		}
		for len(spans) > 0 && spans[0].From == at {
			active, spans = append(active, spans[0]), spans[1:]
		}
		to := active[0].To
		for _, s := range active {
			to = min(to, s.To)
		}
		if len(spans) > 0 {
			to = min(to, spans[0].From)
		}
		t.cell(active, float64(to-at)*cellKm2)
		at = to
		active = slices.DeleteFunc(active, func(s stretch) bool { return s.To <= at })
	}
}

// cell adds what regions have in common in cells of so much area in all.
func (t *overlaps) cell(active []stretch, km2 float64) {
	sum := 0.0
	for _, s := range active {
		sum += s.Share
	}
	if sum <= 1+shareTol {
		return
	}
	slices.SortFunc(active, func(a, b stretch) int { return cmp.Compare(a.region, b.region) })
	before, most := 0.0, active[0]
	for i, s := range active {
		if over := min(s.Share, before+s.Share-1); i > 0 && over > shareTol {
			t.add(s.region, most.region, float64(over*km2))
		}
		before = min(1, before+s.Share)
		if s.Share > most.Share {
			most = s
		}
	}
}

func (t *overlaps) add(region, other int, km2 float64) {
	o := &t.list[region]
	o.AreaKm2 += km2
	switch {
	case o.Other == other && t.votes[region] > 0:
		t.votes[region] += km2
	case t.votes[region] >= km2:
		t.votes[region] -= km2
	default:
		o.Other, t.votes[region] = other, km2-t.votes[region]
	}
}
