package main

import (
	"math"
	"math/rand/v2"
	"time"

	"weekband/grid/season"
	"weekband/grid/series"
)

// The years of days that stations and readers have, both included.
const firstYear, lastYear = 2020, 2024

// Weather is what days differ by from the typical year. It has two parts: one
// of single days, which follow each other a little, and one of whole seasons.
// The numbers are ours, chosen so that TestWeatherIsAsLively holds: the middle of 77
// reference stations of the contiguous United States.
const (
	dayAlike     = 0.68 // of a day and the next
	seasonDays   = 45.0 // in which a season's anomaly falls to 1/e
	seasonShare  = 0.11 // of the variance
	localShare   = 0.05 // of the variance, a place's own
	weatherReach = 2.0  // plan degrees; how far alike the weather is
	knotsAcross  = 4    // in each direction
	coastSD      = 3.1  // K, of daily means about the typical year on a rock in the sea
	inlandSD     = 1.3  // K more far inland
	winterSD     = 0.33 // share by which midwinter is livelier than the year
)

// weather is the days of all years, given at a few knots on the drawing board.
type weather struct {
	dates   []series.Date
	knots   []plan
	days    [][]float64 // by knot; standard deviation 1
	seasons [][]float64
}

func newWeather() *weather {
	w := &weather{}
	for d := series.NewDate(firstYear, time.January, 1); d <= series.NewDate(lastYear, time.December, 31); d++ {
		w.dates = append(w.dates, d)
	}
	wide, high := squeeze*(frame.East-frame.West), frame.North-frame.South
	for r := range knotsAcross {
		for c := range knotsAcross {
			w.knots = append(w.knots, plan{
				x: wide * (float64(c) + 0.5) / knotsAcross,
				y: high * (float64(r) + 0.5) / knotsAcross,
			})
			chance := rand.New(rand.NewPCG(uint64(daysSeed), uint64(len(w.knots))))
			w.days = append(w.days, w.level(drifting(chance, len(w.dates), dayAlike)))
			w.seasons = append(w.seasons, w.level(drifting(chance, len(w.dates), math.Exp(-1/seasonDays))))
		}
	}
	return w
}

// drifting returns a first-order autoregressive series of standard deviation
// 1, each element alike to the one before.
func drifting(chance *rand.Rand, n int, alike float64) []float64 {
	v := make([]float64, n)
	fresh := math.Sqrt(1 - alike*alike)
	for i := range v {
		v[i] = chance.NormFloat64()
		if i > 0 {
			v[i] = alike*v[i-1] + fresh*v[i]
		}
	}
	return v
}

// level takes out of a series what all years have in common, its mean and its
// waves of a year and half a year, in place. So the years together are typical
// ones, as the thirty of a normal are; five years of chance are not.
func (w *weather) level(v []float64) []float64 {
	for wave := range 3 {
		for _, phase := range []float64{0, math.Pi / 2} {
			along, square := 0.0, 0.0
			shape := func(i int) float64 {
				return math.Cos(2*math.Pi*float64(wave)*float64(w.dates[i].Noon())/season.YearDays - phase)
			}
			for i := range v {
				along += v[i] * shape(i)
				square += shape(i) * shape(i)
			}
			for i := range v {
				if wave > 0 || phase == 0 {
					v[i] -= along / square * shape(i)
				}
			}
		}
	}
	return v
}

// anomaly is how much warmer days are than the typical year, in K: that of
// the day alone, and that of the season.
type anomaly struct{ day, season float64 }

// over returns the anomaly of air at a site on each day. Part of it is the
// place's own chance.
func (w *weather) over(s site, chance *rand.Rand) []anomaly {
	out := make([]anomaly, len(w.dates))
	for i, v := range drifting(chance, len(out), dayAlike) {
		out[i].day = v * math.Sqrt(localShare)
	}
	day, slow := math.Sqrt(1-localShare-seasonShare), math.Sqrt(seasonShare)
	for k, share := range w.shares(planOf(s.at)) {
		for i := range out {
			out[i].day += share * day * w.days[k][i]
			out[i].season += share * slow * w.seasons[k][i]
		}
	}
	usual := coastSD + inlandSD*s.inland
	for i, d := range w.dates {
		sd := usual * (1 + winterSD*math.Cos(2*math.Pi*(float64(d.Noon())-16)/season.YearDays))
		out[i].day *= sd
		out[i].season *= sd
	}
	return out
}

// shares says how the knots' weather adds up at p; their squares sum to 1.
func (w *weather) shares(p plan) []float64 {
	out := make([]float64, len(w.knots))
	sum := 0.0
	for k, q := range w.knots {
		d := hypot(p.x-q.x, p.y-q.y) / weatherReach
		out[k] = math.Exp(-d * d)
		sum += out[k] * out[k]
	}
	for k := range out {
		out[k] /= math.Sqrt(sum)
	}
	return out
}
