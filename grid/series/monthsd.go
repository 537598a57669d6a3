package series

import "weekband/grid/units"

// MonthSD returns the standard deviation from year to year of the mean of each
// calendar month, with n − 1, and the number of years it comes from: those in
// which the month is complete. It is what spread.FromSlope takes. It is 0
// where there are under two years. v is one of the station's series.
func (s *Station) MonthSD(v *Values) (sd [12]units.Delta, years [12]int) {
	cal := s.calendar()
	var all [12]moments
	for _, m := range s.months(v.Has, &cal) {
		if !m.complete {
			continue
		}
		sum, n := 0.0, 0.0
		for i := m.from; i < m.to; i++ {
			if v.Has[i] {
				sum += float64(v.Vals[i])
				n++
			}
		}
		all[m.month].add(sum / n)
	}
	for m := range all {
		sd[m], years[m] = units.Delta(all[m].sd()), int(all[m].n)
	}
	return sd, years
}
