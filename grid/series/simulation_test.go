package series_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/series"
	"weekband/grid/units"
)

// weather makes a station of years whose soil is a wave plus an offset of its
// year and a first-order process of its days.
func weather(c *curve.Curve, years int, rng *rand.Rand) *series.Station {
	const offset, daily, alike = 1.0, 2.2, 0.85
	noise, yearly, now := daily*rng.NormFloat64(), 0.0, 0
	return days(series.NewDate(1001, time.January, 1), series.NewDate(1000+years, time.December, 31), func(d series.Date) float64 {
		if y, _, _ := d.YMD(); y != now {
			now, yearly = y, offset*rng.NormFloat64()
		}
		noise = alike*noise + daily*math.Sqrt(1-alike*alike)*rng.NormFloat64()
		return float64(c.At(d.Noon())) + yearly + noise
	})
}

// midwest has the mean 11.5 °C, the amplitude 13.389 K and meets 55 °F halfway
// between the noons of the days 120 and 121.
func midwest() (curve.Curve, crossing.Trigger) {
	level := units.F.Celsius(55)
	quarter := season.YearDays / 4.0
	late := math.Asin((float64(level)-11.5)/13.389) * season.YearDays / (2 * math.Pi)
	return wave(11.5, 13.389, season.Day(121-late-quarter)), crossing.Trigger{Level: level}
}

// The same simulation made with numpy: days of the year at 10, 50 and 90 % of
// 4,000 years, and the standard deviation of 48,000. The days of 4,000 years
// come out whole, and their standard deviation to 0.1.
func TestDefinitionsInASimulation(t *testing.T) {
	if raced {
		t.Skip("one goroutine and millions of days")
	}
	c, trigger := midwest()
	s := weather(&c, 4000, rand.New(rand.NewPCG(4000, 55)))
	for by, want := range map[series.Definition][4]float64{
		series.FirstDay:  {103, 115, 126, 9.08},
		series.FiveDays:  {110, 122, 132, 8.94},
		series.Trailing7: {111, 122, 133, 8.65},
		series.LastBelow: {116, 127, 139, 9.43},
	} {
		y := s.Yearly(&s.Soil[0], &c, trigger, by)
		for i, p := range []float64{0.1, 0.5, 0.9} {
			day, ok := y.Quantile(p)
			if got := float64(day) - 0.5; !ok || math.Abs(got-want[i]) > 1 {
				t.Errorf("%v: %v %% is day %.1f, %v; want %v", by, 100*p, got, ok, want[i])
			}
		}
		if sd, n := y.SD(); math.Abs(sd-want[3]) > 0.35 || n < 3990 {
			t.Errorf("%v: standard deviation %.2f of %d years, want %v", by, sd, n, want[3])
		}
	}
}

// Gaps leave years out but do not move what the others say.
func TestGapsDoNotMoveTheMedian(t *testing.T) {
	c, trigger := midwest()
	years := 3000
	if raced {
		years = 300
	}
	rng := rand.New(rand.NewPCG(7, 30))
	s := weather(&c, years, rng)
	full := s.Yearly(&s.Soil[0], &c, trigger, series.Trailing7)
	for y := range years {
		begin := int(series.NewDate(1001+y, time.March, 1)-s.First) + rng.IntN(110)
		take(&s.Soil[0], begin, begin+rng.IntN(25))
	}
	left := s.Yearly(&s.Soil[0], &c, trigger, series.Trailing7)
	a, _ := full.Quantile(0.5)
	b, _ := left.Quantile(0.5)
	before, n := full.SD()
	after, m := left.SD()
	t.Logf("%d years: median %.2f, sd %.2f; %d left by gaps: %.2f, %.2f", n, float64(a), before, m, float64(b), after)
	if m > 2*n/3 || m < n/10 {
		t.Errorf("gaps left %d of %d years", m, n)
	}
	if tol := 5 / math.Sqrt(float64(m)) * 8.4 / 2; math.Abs(float64(b-a)) > min(tol, 1.5) || math.Abs(after-before) > min(tol, 1) {
		t.Errorf("gaps moved the median from %.2f to %.2f, the standard deviation from %.2f to %.2f", float64(a), float64(b), before, after)
	}
}
