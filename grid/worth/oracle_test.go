package worth_test

import (
	"math"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
	"weekband/grid/worth"
)

// deviates are the 5 %, 15 %, … 95 % quantiles of the standard normal
// distribution (any table).
var deviates = func() (z [10]float64) {
	for i := range z {
		z[i] = math.Sqrt2 * math.Erfinv(2*(0.05+0.1*float64(i))-1)
	}
	return z
}()

// bell holds the probability of each of many small steps of a standard normal Z,
// and their middles.
var bell = func() (b struct{ z, weight []float64 }) {
	const step = 0.04
	for z := -6 + step/2; z < 6; z += step {
		b.z = append(b.z, z)
		b.weight = append(b.weight, step*math.Exp(-z*z/2)/math.Sqrt(2*math.Pi))
	}
	return b
}()

// pastOnAverage is E[max(0, x + sigma·Z)] by a plain sum over Z.
func pastOnAverage(x, sigma float64) float64 {
	if sigma == 0 || math.Abs(x) > 6*sigma {
		return max(0, x)
	}
	sum := 0.0
	for i, z := range bell.z {
		sum += bell.weight[i] * max(0, x+sigma*z)
	}
	return sum
}

// slow is worth by its definition, two plain sums in steps of an hour, soil
// straight between its samples, nothing tabulated.
type slow struct {
	clock   []float64 // half-lives gone by, hour by hour from a year before the origin
	stopped []float64 // share that comes up in an hour, times 2^-clock
	total   float64
}

const hours = 24

func newSlow(year *curve.Year, d crossing.Direction, origin season.Day, treatment worth.Treatment) slow {
	return slowWith(year, d, origin, treatment, worth.For(d).DayToDay)
}

// slowWith is newSlow for soil that varies by sigma from day to day.
func slowWith(year *curve.Year, d crossing.Direction, origin season.Day, treatment worth.Treatment, sigma float64) slow {
	e := worth.For(d)
	sign := 1.0
	if d == crossing.Cooling {
		sign = -1
	}
	n := 2 * season.YearDays * hours
	s := slow{clock: make([]float64, n+1), stopped: make([]float64, n)}
	degreeDays := 0.0
	for k := range n {
		day := (k/hours + int(origin) - 1) % season.YearDays
		a, b := year[day], year[(day+1)%season.YearDays]
		soil := a + (b-a)*(float64(k%hours)+0.5)/hours
		s.clock[k+1] = s.clock[k] + 1/treatment.HalfLifeAt(units.Celsius(soil))/hours
		if k < season.YearDays*hours {
			continue
		}
		before := degreeDays
		degreeDays += pastOnAverage(sign*(soil-e.Base), sigma) / hours
		up := e.Share(degreeDays) - e.Share(before)
		s.total += up
		s.stopped[k] = up * math.Exp2(-(s.clock[k]+s.clock[k+1])/2)
	}
	return s
}

// at is the mean over the deviates of Σ e(u)·2^−(clock(u) − clock(t)) / Σ e(u).
func (s slow) at(days, spread float64) float64 {
	sum := 0.0
	for _, z := range deviates {
		k := int(math.Round((days - z*spread + season.YearDays) * hours))
		for _, stopped := range s.stopped[max(k, season.YearDays*hours):] {
			sum += stopped * math.Exp2(s.clock[k])
		}
		if spread == 0 {
			return sum / s.total
		}
	}
	return sum / s.total / float64(len(deviates))
}

var fall = crossing.Trigger{Level: 190.0 / 9, Direction: crossing.Cooling}

// wave is a year with a second harmonic, as soil has.
func wave(mean, a, coldest float64) *curve.Year {
	var y curve.Year
	for i := range y {
		x := 2 * math.Pi * (float64(i) - coldest) / season.YearDays
		y[i] = mean - a*math.Cos(x) + 0.08*a*math.Sin(2*x)
	}
	return &y
}

// places are soil years from the subtropics to the steppe, both hemispheres.
var places = []struct {
	name    string
	year    *curve.Year
	trigger crossing.Trigger
}{
	{"midwest", midwest(), spring},
	{"gulf", wave(19.7, 8.2, 22), spring},
	{"steppe", wave(9, 14.5, 20), spring},
	{"hot desert", wave(22, 11, 18), spring},
	{"mountain, season cut off by winter", wave(5, 9, 25), spring},
	{"south", wave(15, 8, 205), spring},
	{"midwest, autumn", midwest(), fall},
	{"gulf, autumn", wave(19.7, 8.2, 22), fall},
	{"south, autumn", wave(15, 8, 205), fall},
}

var treatments = []worth.Treatment{
	{HalfLife: worth.Medium}, worth.Usual(worth.Short), worth.Usual(worth.Medium), worth.Usual(worth.Long),
	{HalfLife: 20, Q10: 2.58}, {HalfLife: 10, Q10: 1.5, Reference: 25},
}

// The season agrees with the two plain sums within 1e-4, at every day from
// half a year before the origin.
func TestAgainstTheDefinition(t *testing.T) {
	for _, p := range places {
		origin := crossing.Find(p.year, p.trigger).Origin
		for _, treatment := range treatments {
			var s worth.Season
			oracle := newSlow(p.year, p.trigger.Direction, origin, treatment)
			check := func(days, spread, within float64) {
				if got, want := s.At(days), oracle.at(days, spread); math.Abs(got-want) > within {
					t.Errorf("%s, %+v, spread %v: after %v days worth %.6f, by definition %.6f", p.name, treatment, spread, days, got, want)
				}
			}
			s.FillWith(p.year, p.trigger, origin, treatment, 0)
			for days := -180.0; days <= 365; days += 6.125 {
				check(days, 0, 1e-4)
			}
			s.FillWith(p.year, p.trigger, origin, treatment, 11)
			for days := -150.0; days <= 300; days += 50 {
				check(days, 11, 3e-4) // the oracle's years begin on whole hours
			}
		}
	}
}
