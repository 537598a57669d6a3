package worth

import (
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
)

// Season is the worth of every day of a season at one place. The season
// begins at 0:00 on Origin, the coldest day before a warming trigger or the
// warmest before a cooling one, and lasts 365 days. Its moments count in days
// from Origin; those of the year before are negative.
//
// A Season works out early days only when asked for them: goroutines must not
// share one. The zero value is a season in which nothing comes up.
type Season struct {
	Origin season.Day

	treatment  Treatment
	spread     float64                      // days
	soil       [season.YearDays + 1]float64 // °C at Origin + i days; the last is the first
	emerged    emerged
	total      float64           // share of weeds up at the end, 1 unless the year ends before the season does
	begin, end int               // weeds come up on days [begin, end)
	shares     [shareLen]float64 // times total, normal year, at Origin + i - ago days, for i from known on
	known      int
	sum        float64 // shares[known], without what happens within days
	decay      *decay
	met        memory[decay]
}

const (
	ago      = season.YearDays           // how many days before Origin shares reach back to
	shareLen = ago + season.YearDays + 3 // a few after the end, always 0, for interpolation
)

// FillWith works out the season of one place, reusing s: year is its soil in
// °C, origin the 0:00 of its coldest or warmest day as crossing.Find gives it,
// spread the standard deviation of the crossing from year to year in days.
//
// With e(u) the emergence per day of the normal year, an application at t
// stops ∫ e(u)·remaining(t, u) du over the time after t, as a share of the
// season's emergence. Where the season has no degree-days at all every share
// is 0. Soil changes evenly between samples; shares of the normal year are
// right to 1e-4 for half-lives of 10 days and longer, to 2e-4 for 5 days.
func (s *Season) FillWith(year *curve.Year, trigger crossing.Trigger, origin season.Day, treatment Treatment, spread float64) {
	s.Origin, s.treatment, s.spread = origin, treatment, spread
	if s.decay == nil || s.decay.treatment != treatment {
		s.decay = s.met.of(treatment, newDecay)
	}
	first := int(origin) - 1
	n := copy(s.soil[:season.YearDays], year[first:])
	copy(s.soil[n:season.YearDays], year[:first])
	s.soil[season.YearDays] = s.soil[0]

	last := s.end
	s.begin, s.end = For(trigger.Direction).run(&s.soil, trigger.Direction, &s.emerged)
	s.total = s.emerged[s.end+1]
	s.known, s.sum = ago+s.end, 0
	if last > s.end { // past the last season's end all is 0 already
		clear(s.shares[s.known : ago+last])
	}
}

// reach works out the shares back to element i.
func (s *Season) reach(i int) {
	if s.known > ago+s.begin && s.known > i {
		last := i - ago
		last -= (s.known - i) % 2 // whole pairs, so that no share depends on what was asked before
		s.growing(max(last, s.begin))
	}
	for s.known > max(i, 0) {
		k := s.known - 1
		day := k % season.YearDays // ago is a whole year
		half := s.decay.at(s.soil[day]) + s.decay.at(s.soil[day+1])
		s.sum *= half * half
		s.shares[k] = s.sum
		s.known = k
	}
}

// growing works out the shares back to those of day last, while weeds come up.
//
// A day's weeds are taken to come up at its noon. What that leaves out, the
// change of emergence within the days, adds up to k·e(t)/12 at t, with k the
// loss and e the emergence a day: the first term of the Euler-Maclaurin
// formula. The next is k²/24 of the share.
func (s *Season) growing(last int) {
	n := s.known - ago - last
	s.known = ago + last
	soil := s.soil[last : last+n+1]
	up := s.emerged[last : last+n+2] // a day early: up[i+1] is at the end of day i-1
	shares := s.shares[ago+last : ago+last+n]
	decay := s.decay
	sum, today := s.sum, up[n+1]-up[n]
	after := decay.at(soil[n])
	for i := n - 1; i >= 0; i-- {
		now := decay.at(soil[max(i-1, 0)])
		if i > 0 { // two days at a time: loss is straight over them to 1e-5
			before := up[i+1] - up[i]
			mid := float64((now + after) / 2)
			half := mid + after
			sum = float64((float64(sum*half) + today) * half)
			shares[i] = sum + float64((1-half)*(today+before)*(1.0/12))
			after, today = mid, before
			i--
		}
		before := up[i+1] - up[i]
		half := now + after
		sum = float64((float64(sum*half) + today) * half)
		shares[i] = sum + float64((1-half)*(today+before)*(1.0/12))
		after, today = now, before
	}
	s.sum = sum
}
