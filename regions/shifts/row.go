package shifts

import (
	"math"
	"slices"

	"weekband/grid/season"
	"weekband/grid/shift"
	"weekband/regions"
	"weekband/regions/zonal"
)

// Row is one region: what both editions say of it, and how the day of its
// ground moved.
type Row struct {
	ID, Name      string // the newer name
	Before, After *Line  // nil where the edition does not have the region

	// Common is the share of the region's ground that has a day in both; the
	// next fields are zero when it is 0.
	Common                 float64
	Median, P10, P90       float64 // by how many days its ground comes later, weighted by area
	Earlier, Same, Later   float64 // shares of the common ground by how its week turned; they add to 1
	GainedShare, LostShare float64 // of the region's ground, with a week now and none then, and the reverse
}

// Pair returns a row for every region of a window that either edition has,
// those of the newer table first, in its order. areas and covers, of one
// order, are the regions of the ground to sum over, on the field's grid; a
// region that they do not hold has no Common. before and after are the lines of
// one window each.
func Pair(f *shift.Field, areas regions.Set, covers []zonal.Coverage, before, after []Line) []Row {
	was, cover := map[string]*Line{}, map[string]zonal.Coverage{}
	for i := range before {
		was[before[i].ID] = &before[i]
	}
	for i, r := range areas.Regions {
		cover[r.ID] = covers[i]
	}
	var rows []Row
	for i := range after {
		id := after[i].ID
		row := Row{ID: id, Name: after[i].Name, Before: was[id], After: &after[i]}
		delete(was, id)
		if c, ok := cover[id]; ok {
			row.sum(f, c)
		}
		rows = append(rows, row)
	}
	for i := range before {
		if _, left := was[before[i].ID]; left {
			rows = append(rows, Row{ID: before[i].ID, Name: before[i].Name, Before: &before[i]})
		}
	}
	return rows
}

// sum adds the ground of the region up.
func (r *Row) sum(f *shift.Field, c zonal.Coverage) {
	var km2 [len(shift.Fates)]float64
	var turned [3]float64
	for cell, share := range c.Cells() {
		area := float64(share * c.Grid.CellArea(cell.Row))
		fate, _ := f.Fate.At(cell)
		km2[fate] += area
		if weeks, ok := f.Weeks.At(cell); ok {
			turned[1+sign(int(weeks))] += area
		}
	}
	total := c.Outside
	for _, a := range km2 {
		total += a
	}
	if total == 0 {
		return
	}
	r.GainedShare, r.LostShare = km2[shift.Gained]/total, km2[shift.Lost]/total
	q, ok := zonal.Quantiles(c, f.Days, 0.1, 0.5, 0.9)
	if !ok {
		return
	}
	moved := km2[shift.Moved]
	r.Common = moved / total
	r.P10, r.Median, r.P90 = q[0], q[1], q[2]
	r.Earlier, r.Same, r.Later = turned[0]/moved, turned[1]/moved, turned[2]/moved
}

func sign(n int) int {
	switch {
	case n < 0:
		return -1
	case n > 0:
		return 1
	}
	return 0
}

// Told reports whether both editions have a week to tell of the region.
func (r *Row) Told() bool { return r.Before.HasWeek() && r.After.HasWeek() }

// Weeks returns by how many weeks the region's week comes later, −26 to 25; it
// means something when Told.
func (r *Row) Weeks() int {
	if !r.Told() {
		return 0
	}
	return shift.WeeksLater(r.Before.Week, r.After.Week)
}

// MiddleDates returns the median, over the n regions that both editions have a
// week to tell of, of each of the four shifts of Dates: the lower one of an
// even number.
func MiddleDates(rows []Row) (middle Dates, n int) {
	var ahead, from, to, catchup []float64
	for i := range rows {
		if d, ok := rows[i].Dates(); ok && rows[i].Told() {
			ahead, from, to, catchup = append(ahead, d.AheadFrom), append(from, d.OntimeFrom), append(to, d.OntimeTo), append(catchup, d.CatchupTo)
		}
	}
	if n = len(from); n == 0 {
		return middle, 0
	}
	median := func(v []float64) float64 {
		slices.Sort(v)
		return v[(n-1)/2]
	}
	return Dates{AheadFrom: median(ahead), OntimeFrom: median(from), OntimeTo: median(to), CatchupTo: median(catchup)}, n
}

// outline is by how much the area of a region may differ, as a share of it,
// without having another outline; tables round to a tenth of a km².
const outline = 0.005

// Redrawn reports whether the region's area differs between the editions, so
// that part of the shift of its published week may come from its outline.
func (r *Row) Redrawn() bool {
	if r.Before == nil || r.After == nil {
		return false
	}
	a, b := r.Before.AreaKm2, r.After.AreaKm2
	return math.Abs(a-b) > 0.1+float64(outline*math.Max(a, b))
}

// Dates are by how many days the four dates of a region's calendar come
// later, by the shorter way around the year.
type Dates struct{ AheadFrom, OntimeFrom, OntimeTo, CatchupTo float64 }

// Dates returns those of the published dates; ok is false unless both editions
// have them. Dates are whole days, so that each may be off by one.
func (r *Row) Dates() (d Dates, ok bool) {
	if r.Before == nil || r.After == nil || !r.Before.Dated || !r.After.Dated {
		return d, false
	}
	a, b := &r.Before.Calendar, &r.After.Calendar
	later := func(a, b season.Day) float64 { return a.Apart(b) }
	return Dates{
		AheadFrom: later(a.AheadFrom, b.AheadFrom), OntimeFrom: later(a.OntimeFrom, b.OntimeFrom),
		OntimeTo: later(a.OntimeTo, b.OntimeTo), CatchupTo: later(a.CatchupTo, b.CatchupTo),
	}, true
}
