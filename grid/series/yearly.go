package series

import (
	"slices"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
)

// Yearly is what a trigger did in each year of a series.
type Yearly struct {
	Normal crossing.Crossing // of the typical year
	Years  []Year            // in order, those without data included
}

// Year is one year's crossing.
type Year struct {
	Year int // holds the time a quarter of a year after the season's origin
	// Reason is Dated; Always when the level was already past at the coldest
	// time (warmest, for cooling); Never when it was not reached before the
	// next; NoData when too little was measured to tell.
	Reason crossing.Reason
	Date   Date       // of a Dated year
	Day    season.Day // the noon of Date in the typical year
}

// Yearly returns the crossings of each year of a daily series, counted from
// the coldest time of its typical year (warming) or the warmest (cooling), as
// the definition says. v is one of the station's series, normal the typical
// year of the same sensor. A year's season ends where the next begins.
//
// Gaps of up to three days are bridged by straight lines. A longer gap could
// hide the true crossing and leave a later one to be found, or spare early
// years and not late ones. So a year is used only when none lies between 60
// days before its crossing by Trailing7 (or the origin) and 30 days after the
// typical one, and four fifths of the days since the origin are there; a record
// that ends in between does not count its last year even when that crossed
// early. The same years are used whatever the definition. A year is Never only
// when four fifths of its season are there and no longer gap lies within 60
// days of the other extreme.
//
// Series of months have no years.
func (s *Station) Yearly(v *Values, normal *curve.Curve, trigger crossing.Trigger, by Definition) Yearly {
	var year curve.Year
	normal.Sample(&year)
	y := Yearly{Normal: crossing.Find(&year, trigger)}
	if s.Monthly || s.Len() == 0 {
		return y
	}
	w := newSearch(s, v, &y.Normal, trigger)
	first, _, _ := s.First.YMD()
	last, _, _ := s.Date(s.Len() - 1).YMD()
	for n := first - 1; n <= last; n++ {
		origin, next := on(n, y.Normal.Origin), on(n+1, y.Normal.Origin)
		if int(next-s.First) <= 0 || int(origin-s.First) >= s.Len() {
			continue
		}
		y.Years = append(y.Years, w.year(origin, next, by))
	}
	return y
}

// Count returns the number of years with a reason.
func (y *Yearly) Count(reason crossing.Reason) int {
	n := 0
	for i := range y.Years {
		if y.Years[i].Reason == reason {
			n++
		}
	}
	return n
}

// dated returns how many days after the origin the years with a date crossed,
// sorted.
func (y *Yearly) dated() []float64 {
	var out []float64
	for i := range y.Years {
		if y.Years[i].Reason == crossing.Dated {
			out = append(out, y.Normal.Origin.DaysTo(y.Years[i].Day))
		}
	}
	slices.Sort(out)
	return out
}

// Quantile returns the day by which a share p, 0 to 1, of the years had
// crossed: the median is 0.5, an early year 0.1, a late one 0.9. It is
// Hyndman and Fan's type 7 (The American Statistician 50:361, 1996) over all
// years with data. Years already past at the origin count as earlier and years
// that never cross as later than all; ok is false where one of them would be
// part of the answer, or there is no year.
func (y *Yearly) Quantile(p float64) (day season.Day, ok bool) {
	dated, early := y.dated(), y.Count(crossing.Always)
	at := float64(p*float64(early+len(dated)+y.Count(crossing.Never)-1)) - float64(early)
	if !(at >= 0 && at <= float64(len(dated)-1)) {
		return 0, false
	}
	return (y.Normal.Origin + season.Day(Between(dated, at))).In(), true
}

// SD returns the standard deviation, with n − 1, in days, of the years that
// have a date, and their number. It is 0 for less than two.
func (y *Yearly) SD() (days float64, years int) {
	var m moments
	for _, t := range y.dated() {
		m.add(t)
	}
	return m.sd(), int(m.n)
}

// Between returns the value at a place, counted from 0, in or between the
// elements of a list, straight lines from one to the next. It panics outside of
// the list.
func Between(list []float64, at float64) float64 {
	i := min(int(at), len(list)-1)
	if float64(i) == at {
		return list[i]
	}
	return list[i] + float64((at-float64(i))*(list[i+1]-list[i]))
}
