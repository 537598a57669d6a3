package worth_test

import (
	"math"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/worth"
)

// tally adds up places: the days by which two counts miss the mean of the
// years, and how far a year's days lie about its level.
type tally struct {
	n, years               int
	bias, mae, bias0, mae0 quarters // with the swings of days, and without (0)
	inYear, measured       float64
}

func (s *tally) add(p *place, with, without quarters) {
	s.n++
	s.years += p.years
	if !math.IsNaN(p.inYear) {
		s.inYear += p.inYear
		s.measured++
	}
	for i, mean := range p.mean {
		s.bias[i] += with[i] - mean
		s.mae[i] += math.Abs(with[i] - mean)
		s.bias0[i] += without[i] - mean
		s.mae0[i] += math.Abs(without[i] - mean)
	}
}

// mean turns the sums into means.
func (s *tally) mean() {
	s.inYear /= s.measured
	for i := range s.bias {
		for _, q := range []*quarters{&s.bias, &s.mae, &s.bias0, &s.mae0} {
			q[i] /= float64(s.n)
		}
	}
}

// Where each year's degree-days are counted from its own days, the quarters of
// the season come on average when counting with DayToDay says, in the south and
// the north, and a day or two before counting from the smooth curve says.
// DayToDay is the standard deviation of days about their own year's level.
// Stations of the U.S. Climate Reference Network with eight years or more.
func TestCountAgainstTheYears(t *testing.T) {
	stations, sensor := reference(t)
	for _, trigger := range []crossing.Trigger{spring, fall} {
		e, sign := worth.For(trigger.Direction), 1.0
		if trigger.Direction == crossing.Cooling {
			sign = -1
		}
		var parts [3]tally
		for i := range stations {
			p, ok := observe(&stations[i], sensor, e, trigger)
			without, whole := ofCurve(&p.year, e, sign, p.origin, 0)
			if !ok || !whole {
				continue
			}
			var s worth.Season
			s.FillWith(&p.year, trigger, p.origin, worth.Treatment{HalfLife: worth.Medium}, 0)
			with := ofSeason(&s)
			own, _ := ofCurve(&p.year, e, sign, p.origin, e.DayToDay)
			for k := range own {
				if math.Abs(own[k]-with[k]) > 0.03 {
					t.Errorf("station %s: quarter %d after %.3f days, a plain sum says %.3f", stations[i].ID, k+1, with[k], own[k])
				}
			}
			t.Logf("%v %s, %2d years: %.1f K, days %.1f, without %.1f, with %.1f", trigger.Direction, stations[i].ID, p.years, p.inYear, p.mean, without, with)
			parts[0].add(&p, with, without)
			if p.north {
				parts[2].add(&p, with, without)
			} else {
				parts[1].add(&p, with, without)
			}
		}
		for k, name := range []string{"all", "south of 38°", "north"} {
			s := &parts[k]
			s.mean()
			t.Logf("%v, %s: %d stations, %d years, %.2f K; bias without %.2f, with %.2f; MAE without %.2f, with %.2f",
				trigger.Direction, name, s.n, s.years, s.inYear, s.bias0, s.bias, s.mae0, s.mae)
			s.check(t, trigger.Direction.String()+", "+name, e.DayToDay, k == 0)
		}
	}
}

// check holds a tally against what the docs say.
func (s *tally) check(t *testing.T, name string, dayToDay float64, all bool) {
	t.Helper()
	far, least := 0.1, 30
	if all {
		far, least = 0.05, 65
	}
	if s.n < least {
		t.Errorf("%s: only %d stations", name, s.n)
	}
	if math.Abs(s.inYear-dayToDay) > far {
		t.Errorf("%s: days lie %.3f K about their year, DayToDay is %v", name, s.inYear, dayToDay)
	}
	for i := range s.bias {
		if math.Abs(s.bias[i]) > 0.4 || s.bias0[i] < 0.9 || s.mae[i] > 0.6*s.mae0[i] {
			t.Errorf("%s, quarter %d: bias %.2f days with, %.2f without; MAE %.2f and %.2f", name, i+1, s.bias[i], s.bias0[i], s.mae[i], s.mae0[i])
		}
	}
}

// What the swings of days change for a medium half-life: the end of catching up
// and the best day come earlier by so many days than counted from the curve
// alone.
func TestWhatSwingsChange(t *testing.T) {
	years := soilYears(t, "soil10_c", georgia, kansas, minnesota)
	for id, want := range map[string][2]float64{georgia: {2.5, 3.3}, kansas: {1.5, 2.0}, minnesota: {1.0, 1.2}} {
		var s worth.Season
		onset := fill(&s, years[id], worth.Usual(worth.Medium))
		curveAlone := slowWith(years[id], crossing.Warming, s.Origin, worth.Usual(worth.Medium), 0)
		last, _ := s.LastAbove(0.25, onset)
		end := last
		for curveAlone.at(end, 11) > 0.25 {
			end += 1.0 / hours
		}
		best, _ := s.Best()
		most, top := best, 0.0
		for day := best - 1; day < best+6; day += 0.125 {
			if w := curveAlone.at(day, 11); w > top {
				most, top = day, w
			}
		}
		for i, got := range []float64{end - last, most - best} {
			if math.Abs(got-want[i]) > 0.2 {
				t.Errorf("station %s: %s comes %.2f days earlier, want %v", id, []string{"the end of catching up", "the best day"}[i], got, want[i])
			}
		}
	}
}
