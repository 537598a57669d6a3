package worth_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
	"weekband/grid/worth"
)

// asked is a question to an Ending, and the same to a Season.
type asked struct {
	year                curve.Year
	fine                curve.Fine
	trigger             crossing.Trigger
	origin              season.Day
	treatment           worth.Treatment
	spread, floor, from float64
}

func (q *asked) ending(e *worth.Ending) (days float64, ok bool) {
	return e.LastAbove(&q.fine, q.trigger, q.origin, q.treatment, q.spread, q.floor, q.from)
}

func (q *asked) fill(s *worth.Season) {
	s.FillWith(&q.year, q.trigger, q.origin, q.treatment, q.spread)
}

// askOf asks about the default windows at a place whose soil follows a curve;
// dated is false when the trigger has no day there.
func askOf(c *curve.Curve, trigger crossing.Trigger) (q asked, dated bool) {
	c.Sample(&q.year)
	c.Fine(&q.fine)
	x := crossing.Find(&q.year, trigger)
	q.trigger, q.origin, q.from = trigger, x.Origin, x.Origin.DaysTo(x.Day)
	q.treatment, q.spread, q.floor = worth.Usual(worth.Medium), 11, 0.25
	return q, x.Reason == crossing.Dated
}

// climate returns the soil of any climate: frozen to tropical, north or south,
// flat to steep, and smooth, wavy or wild.
func climate(rng *rand.Rand) *curve.Curve {
	c := &curve.Curve{Mean: -8 + 36*rng.Float64()}
	swing, turn := 18*rng.Float64(), 2*math.Pi*rng.Float64()
	c.Cos[0], c.Sin[0] = swing*math.Cos(turn), swing*math.Sin(turn)
	waves := [...]float64{0, 1, 3}[rng.IntN(3)]
	for k := 1; k < curve.Order; k++ {
		c.Cos[k], c.Sin[k] = waves*rng.NormFloat64()/float64(k*k), waves*rng.NormFloat64()/float64(k*k)
	}
	return c
}

// any asks anything that has a day: half the time about the default windows, or
// about triggers, treatments, spreads and floors as far out as recipes let them
// be.
func ask(rng *rand.Rand) asked {
	for {
		trigger := [...]crossing.Trigger{spring, fall}[rng.IntN(2)]
		if rng.IntN(3) == 0 {
			trigger.Level += units.Celsius(8*rng.Float64() - 4)
		}
		q, dated := askOf(climate(rng), trigger)
		if !dated {
			continue
		}
		if rng.IntN(2) == 0 {
			q.treatment.HalfLife = 5 * math.Pow(365.0/5, rng.Float64())
		}
		if rng.IntN(4) == 0 {
			q.treatment.Q10 = []float64{0, 1.5, 2.58}[rng.IntN(3)]
		}
		if rng.IntN(2) == 0 {
			q.spread = 45 * max(rng.Float64()-0.2, 0) / 0.8
		}
		if rng.IntN(2) == 0 {
			q.floor = 0.01 + 0.89*rng.Float64()
		}
		return q
	}
}

// comeUp returns the share of its weeds that a season brings up before the year
// ends, by a plain sum over days.
func (q *asked) comeUp() float64 {
	e, degreeDays := worth.For(q.trigger.Direction), 0.0
	for _, soil := range q.year {
		degreeDays += pastOnAverage(q.trigger.Direction.Sign()*(soil-e.Base), e.DayToDay)
	}
	return e.Share(degreeDays)
}

// scan returns the last moment at which a season is worth its floor, by steps
// back from its end and halving.
func (q *asked) scan(s *worth.Season) (days float64, ok bool) {
	const stride = 0.5
	lo := season.YearDays + stride*math.Ceil(2*q.spread/stride)
	for ; s.At(lo) < q.floor; lo -= stride {
		if lo <= q.from {
			return 0, false
		}
	}
	hi := lo + stride
	for hi-lo > 1e-6 {
		if mid := (lo + hi) / 2; s.At(mid) >= q.floor {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo, lo >= q.from
}

// An Ending finds the last moment at which a Season, filled from every day, is
// worth its floor: within 0.02 days, or else, where worth hardly falls, where
// it is within 2e-4 of the floor; 3e-4 for half-lives under ten days, for which
// a Season itself is right to 2e-4. Where less than a fiftieth of the weeds
// come up before the year ends nothing is promised.
func TestEndingAgainstSeason(t *testing.T) {
	rng := rand.New(rand.NewPCG(96, 365))
	var e worth.Ending
	var s worth.Season
	found, none := 0, 0
	for n := range 4000 {
		q := ask(rng)
		q.fill(&s)
		want, wantOK := q.scan(&s)
		got, ok := q.ending(&e)
		hair := 2e-4
		if q.treatment.HalfLife < 10 {
			hair = 3e-4
		}
		switch {
		case q.comeUp() < 0.02:
		case ok && wantOK:
			found++
			if math.Abs(got-want) > 0.02 && math.Abs(s.At(got)-q.floor) > hair {
				t.Errorf("%d, %v: %v, the season has %v; worth %.5f", n, &q, got, want, s.At(got))
			}
		case ok && s.At(got) < q.floor-hair:
			t.Errorf("%d, %v: %v, where the season is worth %.5f", n, &q, got, s.At(got))
		case wantOK && s.At(want-1) > q.floor+hair:
			t.Errorf("%d, %v: none, the season has %v and is worth %.5f a day before", n, &q, want, s.At(want-1))
		default:
			none++
		}
	}
	if found < 2800 || none < 300 {
		t.Errorf("%d have an end and %d have none: too few to tell", found, none)
	}
}

// String tells the question but for its year.
func (q *asked) String() string {
	return fmt.Sprintf("%+v, from %.2f days after %v, %+v, spread %.2f, floor %.3f", q.trigger, q.from, q.origin, q.treatment, q.spread, q.floor)
}

// years returns the two default windows at places of a middling climate.
func years() (all []asked) {
	rng := rand.New(rand.NewPCG(7, 7))
	for len(all) < 500 {
		swing := 9 + 6*rng.Float64()
		c := curve.Curve{Mean: 8 + 8*rng.Float64()}
		c.Cos[0], c.Sin[0] = -swing*math.Cos(0.4), -swing*math.Sin(0.4)
		for k := 1; k < curve.Order; k++ {
			c.Cos[k], c.Sin[k] = rng.NormFloat64()/float64(k*k), rng.NormFloat64()/float64(k*k)
		}
		if q, dated := askOf(&c, [...]crossing.Trigger{spring, fall}[len(all)%2]); dated {
			all = append(all, q)
		}
	}
	return all
}

// BenchmarkEnding is what a cell of a map costs, one of many.
func BenchmarkEnding(b *testing.B) {
	all := years()
	var e worth.Ending
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		all[i].ending(&e)
		i = (i + 1) % len(all)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}

// BenchmarkSeasonEnding is what it costs by a Season.
func BenchmarkSeasonEnding(b *testing.B) {
	all := years()
	var s worth.Season
	i := 0
	for b.Loop() {
		q := &all[i]
		q.fill(&s)
		s.LastAbove(q.floor, q.from)
		i = (i + 1) % len(all)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}
