package report

import (
	"math"

	"weekband/grid"
	"weekband/grid/abreast"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/weeks"
	"weekband/grid/worth"
	"weekband/regions"
	"weekband/regions/zonal"
)

// Row is one region under one window.
type Row struct {
	Window   *status.Window
	ID, Name string // of the region, the second its title
	Shares   zonal.Summary
	// Dated reports whether any ground of the region has a crossing day; the
	// days below are zero without. They are unwrapped like the field's.
	Dated            bool
	Median, P10, P90 season.Day // of the crossing day, over the region's ground
	// Calendar holds the area-weighted median of each of the four days over
	// the region's dated ground.
	Calendar status.Calendar
	// Error is the median expected error of the typical day over the region's
	// dated ground, in days; 0 when not known.
	Error float64
	// Value is what applications come to, at the cell whose crossing lies
	// nearest to the median; nil without a dated cell whose year is known.
	Value *status.Value
	// Soil is the typical year, in °C, that Value was worked out from; nil
	// with it.
	Soil *curve.Year
	// Doubt is the standard deviation in days, at the same cell, of a spot's
	// crossing in any one year about the typical day.
	Doubt float64
}

// Build returns the rows of all windows, window by window, regions in the
// order of the set. covers[i] is the cover of region i on the fields' grid. It
// works on all processors; the result does not depend on their number.
func Build(fields []*weeks.Field, set regions.Set, covers []zonal.Coverage) []Row {
	titles, n := set.Titles(), len(set.Regions)
	if n == 0 {
		return nil
	}
	rows := make([]Row, len(fields)*n)
	abreast.EachWith(len(rows), func(i int, s *worth.Season) {
		f, r, cover := fields[i/n], set.Regions[i%n], covers[i%n]
		one := &rows[i]
		*one = row(f, r, cover)
		one.Name = titles[i%n]
		one.value(f, cover, s)
	})
	return rows
}

// value works out what applications come to in a region: the year is that of
// the region's cell whose crossing lies nearest to the median, moved as a whole
// so that it crosses on it; the calendar is the region's own.
func (r *Row) value(f *weeks.Field, cover zonal.Coverage, s *worth.Season) {
	if !r.Dated || f.Common == nil || f.Typical == nil {
		return
	}
	cell, ok := zonal.Nearest(cover, f.Day, float64(r.Median))
	var year curve.Year
	if !ok || !f.Typical.Year(cell, &year) {
		return
	}
	year.Shift(float64(f.Window.Trigger.Level) - year.At(r.Median))
	sd, _ := f.Spread.At(cell)
	r.Doubt = spread.Together(float64(sd), f.ErrorAt(cell))
	v := f.Window.Value(&year, r.Calendar, r.Doubt, s)
	r.Value, r.Soil = &v, &year
}

func row(f *weeks.Field, r regions.Region, cover zonal.Coverage) Row {
	s := zonal.Sums{Summary: zonal.Summarize(cover, f.Day, f.Reason)}
	if !s.HasDay {
		return rowOf(&f.Window, r, s)
	}
	median := func(r *grid.Raster[float32]) float64 {
		q, ok := zonal.Quantiles(cover, r, 0.5)
		if !ok {
			panic("report: a field with days lacks their calendar")
		}
		return q[0]
	}
	s.OntimeFrom, s.CatchupTo = median(f.OntimeFrom), median(f.CatchupTo)
	if f.Error != nil {
		s.Error = median(f.Error)
	}
	return rowOf(&f.Window, r, s)
}

// rowOf returns the row of a region without what applications come to.
func rowOf(w *status.Window, r regions.Region, s zonal.Sums) Row {
	out := Row{Window: w, ID: r.ID, Name: r.Name, Shares: s.Summary}
	if !s.HasDay {
		return out
	}
	out.Dated = true
	out.Median, out.P10, out.P90 = season.Day(s.Median), season.Day(s.P10), season.Day(s.P90)
	from := season.Day(s.OntimeFrom)
	out.Calendar = status.Calendar{
		AheadFrom:  from - season.Day(w.AheadDays),
		OntimeFrom: from, OntimeTo: out.Median, CatchupTo: season.Day(s.CatchupTo),
	}
	out.Error = spread.Expected(s.Error)
	return out
}

// Years returns the crossing day of an early and a late year, one of ten each,
// at a usual spot of a region with a Soil; unwrapped like the others.
func (r *Row) Years() (early, late season.Day) {
	by := season.Day(spread.EarlyBy(r.Doubt))
	return r.Median - by, r.Median + by
}

// Envelope is how far from its Soil eight years in ten keep: as far as the
// crossings of an early and a late year say at the slope there.
func (r *Row) Envelope() units.Delta {
	slope := (r.Soil.At(r.Median+1) - r.Soil.At(r.Median-1)) / 2
	return units.Delta(math.Abs(slope) * spread.EarlyBy(r.Doubt))
}

// Of returns the rows of one window.
func Of(rows []Row, window string) []Row {
	var out []Row
	for _, r := range rows {
		if r.Window.ID == window {
			out = append(out, r)
		}
	}
	return out
}

// Why tells why a region has no week: for the reason of most of its ground.
func Why(s zonal.Summary) crossing.Reason {
	why, most := crossing.NoData, 0.0
	for _, part := range []struct {
		share  float64
		reason crossing.Reason
	}{{s.AlwaysShare, crossing.Always}, {s.NeverShare, crossing.Never}, {s.FlatShare, crossing.Flat}} {
		if part.share > most {
			why, most = part.reason, part.share
		}
	}
	return why
}
