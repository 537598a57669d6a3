package series

import "time"

// Bounds of a complete month after WMO-No. 1203: it is missing when 11 or
// more of its days are, or 5 or more in a row.
const (
	mostMissing = 10
	longestGap  = 4
)

// coverage counts the pairs of air and one soil sensor and refuses the sensor
// when a calendar month is complete in too few years.
func (c *check) coverage(k int) {
	cov := c.s.cover(&c.s.Soil[k], &c.cal)
	c.report.Soil = append(c.report.Soil, cov)
	most, need := 0, c.rules.monthsNeeded()
	for _, n := range cov.Complete {
		most = max(most, n)
	}
	month, least := cov.scarcest()
	if least >= need {
		return
	}
	kind, days := Gap, least
	if most < need {
		kind, days = Short, most
	}
	f := Finding{Kind: kind, Act: Refused, Sensor: k, Days: days, month: month}
	if c.s.Len() > 0 {
		f.From, f.To = c.s.Date(0), c.s.Date(c.s.Len()-1)
	}
	c.report.Findings = append(c.report.Findings, f)
}

// cover counts days on which air and soil are both present.
func (s *Station) cover(soil *Values, cal *calendar) Coverage {
	var cov Coverage
	first, last := -1, -1
	pair := make([]bool, s.Len())
	for i := range pair {
		if pair[i] = s.Air.Has[i] && soil.Has[i]; pair[i] {
			cov.Pairs++
			last = i
			if first < 0 {
				first = i
			}
		}
	}
	if first < 0 {
		return cov
	}
	var all, missing [12]float64
	for i := first; i <= last; i++ {
		all[cal.month[i]]++
		if !pair[i] {
			missing[cal.month[i]]++
		}
	}
	for m := range all {
		if cov.Missing[m] = 1; all[m] > 0 {
			cov.Missing[m] = missing[m] / all[m]
		}
	}
	for _, m := range s.months(pair, cal) {
		if m.complete {
			cov.Complete[m.month]++
		}
	}
	return cov
}

// span is one month of one year: elements from up to, not including, to.
type span struct {
	year     int
	month    int // 0 for January
	from, to int
	complete bool
}

// months cuts a series into months and tells which are complete. In a Monthly
// station every present element is a complete month.
func (s *Station) months(has []bool, cal *calendar) []span {
	var out []span
	for from := 0; from < len(has); {
		m := span{year: int(cal.year[from]), month: int(cal.month[from]), from: from}
		to, missing, gap, longest := from, 0, 0, 0
		for ; to < len(has) && cal.month[to] == cal.month[from]; to++ {
			if has[to] {
				gap = 0
				continue
			}
			missing++
			gap++
			longest = max(longest, gap)
		}
		m.to = to
		if s.Monthly {
			m.complete = has[from]
		} else {
			missing += monthDays(m.year, time.Month(m.month+1)) - (to - from) // before the first or after the last date
			m.complete = missing <= mostMissing && longest <= longestGap && to-from >= monthDays(m.year, time.Month(m.month+1))-longestGap
		}
		out = append(out, m)
		from = to
	}
	return out
}
