package zonal

import (
	"weekband/grid/crossing"
	"weekband/grid/season"
)

// Ground returns the area in km² of all cells of the grid by the week of their
// crossing, of which index 0 is unused, and by their reason.
func (t *Tally) Ground() (weeks [season.Weeks + 1]float64, reasons [len(crossing.Reasons)]float64) {
	for i, w := range t.ground.day.weeks() {
		weeks[i] = t.km2(w)
	}
	for i, w := range t.ground.reason {
		reasons[i] = t.km2(w)
	}
	return weeks, reasons
}

func (t *Tally) km2(units uint64) float64 { return float64(units) / t.perKm2 }

// Sums are what a Tally knows of a region. Days are unwrapped. Quantiles are
// the middles of the bins that hold what Quantiles would give: of the same
// day, and so of the same week, and within half a bin of it. Bins are 1/64 of a
// day where the region's days fall in no more than 768 of them, as when they
// lie twelve days apart at most, and twice as wide as often as that takes: half
// a day where there are crossings all year.
type Sums struct {
	Summary
	// OntimeFrom and CatchupTo are medians over the ground that has a day, from
	// bins of whole days; Error is that of the standard error of the day, from
	// bins of 1/16 of a day or wider, 0 when not known.
	OntimeFrom, CatchupTo, Error float64
}

// Region returns the sums of a region, by its index in the set, with days
// unwrapped at a cut: the beginning of the year or of a week. All blocks must
// have been added.
func (t *Tally) Region(region int, cut season.Day) Sums {
	return t.sums(&t.regions[region], t.sweep.Outside(region), cut)
}

// Whole is Region of all cells of the grid.
func (t *Tally) Whole(cut season.Day) Sums { return t.sums(&t.ground, 0, cut) }

func (t *Tally) sums(a *account, outside float64, cut season.Day) Sums {
	var s Sums
	var km2 [len(crossing.Reasons)]float64
	for i, w := range a.reason {
		km2[i] = t.km2(w)
	}
	km2[crossing.NoData] += outside
	for i, w := range a.day.weeks() {
		s.Weeks[i] = t.km2(w)
	}
	s.scale(km2)
	days, ok := a.day.quantiles(cut, 0.1, 0.5, 0.9)
	if !ok {
		return s
	}
	s.HasDay, s.P10, s.Median, s.P90 = true, days[0], days[1], days[2]
	s.OntimeFrom, s.CatchupTo = a.from.median(cut), a.to.median(cut)
	s.Error = a.error.median(1)
	return s
}

// median returns the middle of the bin that holds the median, 0 of nothing.
func (b *bins) median(cut season.Day) float64 {
	if days, ok := b.quantiles(cut, 0.5); ok {
		return days[0]
	}
	return 0
}
