package worth_test

import (
	"fmt"
	"math"
	"math/rand/v2"

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

// set asks about a default window at the place whose soil is given; dated is
// false when the trigger has no day there.
func (q *asked) set(trigger crossing.Trigger) (dated bool) {
	x := crossing.Find(&q.year, trigger)
	q.trigger, q.origin, q.from = trigger, x.Origin, x.Origin.DaysTo(x.Day)
	q.treatment, q.spread, q.floor = worth.Usual(worth.Medium), 11, 0.25
	return x.Reason == crossing.Dated
}

// follow sets the soil to a curve.
func (q *asked) follow(c *curve.Curve) {
	c.Sample(&q.year)
	c.Fine(&q.fine)
}

// freeze sets the soil to what lags five days behind a curve whose frost is
// felt to three tenths, as below snow, in steps of an eighth of a day.
func (q *asked) freeze(c *curve.Curve) {
	const perDay, lag = 8, 5.0
	var air, soil [perDay*season.YearDays + 1]float64
	for i := range air {
		air[i] = float64(c.At(1 + season.Day(i)/perDay))
		air[i] = max(air[i], 0.3*air[i])
	}
	y := air[0]
	for range 2 {
		for i := range air[1:] {
			y += (air[i] - y) / (lag * perDay)
			soil[i+1] = y
		}
		soil[0] = y
	}
	for i := range q.year {
		q.year[i] = soil[i*perDay]
	}
	for j := range q.fine {
		at := float64(j) * curve.FineStep * perDay
		i := int(at)
		q.fine[j] = soil[i] + (at-float64(i))*(soil[i+1]-soil[i])
	}
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

// ask asks anything that has a day: about default windows, or triggers,
// treatments, spreads and floors as far out as recipes let them be; in soil
// that follows a smooth curve, or has corners from frost.
func ask(rng *rand.Rand, frost bool) (q asked) {
	for {
		trigger := [...]crossing.Trigger{spring, fall}[rng.IntN(2)]
		if rng.IntN(3) == 0 {
			trigger.Level += units.Celsius(8*rng.Float64() - 4)
		}
		if c := climate(rng); frost {
			q.freeze(c)
		} else {
			q.follow(c)
		}
		if !q.set(trigger) {
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
		if rng.IntN(10) == 0 {
			q.from = 364 * rng.Float64()
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
		var q asked
		q.follow(&c)
		if q.set([...]crossing.Trigger{spring, fall}[len(all)%2]) {
			all = append(all, q)
		}
	}
	return all
}
