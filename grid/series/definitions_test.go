package series_test

import (
	"math"
	"slices"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/series"
	"weekband/grid/spread"
	"weekband/grid/units"
)

func mean(v []float64) (m, sd float64) {
	for _, x := range v {
		m += x / float64(len(v))
	}
	for _, x := range v {
		sd += (x - m) * (x - m) / float64(len(v)-1)
	}
	return m, math.Sqrt(sd)
}

func median(v []float64) float64 {
	v = slices.Sorted(slices.Values(v))
	return v[len(v)/2]
}

// leastYears is how many dated years a station needs to count in these tests.
const leastYears = 8

// The table of doc.go: how far each definition moves the median of the years
// from the crossing of the typical year at 10 cm, and how the years differ.
func TestDefinitionsAtReferenceStations(t *testing.T) {
	n := reference(t)
	bias := map[crossing.Direction]map[series.Definition]float64{
		crossing.Warming: {series.Trailing7: -0.7, series.FirstDay: -10.1, series.FiveDays: -0.9, series.Centred7: -3.7, series.LastBelow: 10},
		crossing.Cooling: {series.Trailing7: 1.4, series.FirstDay: -6.2, series.FiveDays: 0.4, series.Centred7: -1.6, series.LastBelow: 9.6},
	}
	years := map[crossing.Direction]float64{crossing.Warming: 10.7, crossing.Cooling: 8.2}
	for _, direction := range []crossing.Direction{crossing.Warming, crossing.Cooling} {
		for _, by := range []series.Definition{series.Trailing7, series.FirstDay, series.FiveDays, series.Centred7, series.LastBelow} {
			for _, level := range []float64{50, 55, 60, 65} {
				d := define(n, crossing.Trigger{Level: units.F.Celsius(level), Direction: direction}, by)
				m, sd := mean(d.shift)
				t.Logf("%v %v °F %-9v %2d stations %3d years: median less typical %+5.1f ± %.1f d; year to year %.1f d; 10 to 90 %% %.1f d", direction, level, by, len(d.shift), d.years, m, sd, median(d.sd), median(d.width))
				if math.Abs(m-bias[direction][by]) > 2.3 || sd > 9.5 {
					t.Errorf("%v %v %v: median less typical %+.1f ± %.1f days, want about %+.1f", direction, level, by, m, sd, bias[direction][by])
				}
				if math.Abs(median(d.sd)-years[direction]) > 1.4 {
					t.Errorf("%v %v %v: year to year %.1f days, want about %.1f", direction, level, by, median(d.sd), years[direction])
				}
				if len(d.shift) < 50 || d.years < 10*len(d.shift) {
					t.Errorf("%v %v %v: %d stations with %d years", direction, level, by, len(d.shift), d.years)
				}
			}
		}
	}
}

// defined sums up one definition, an element a station.
type defined struct {
	shift, sd, width []float64
	years            int
}

func define(n *network, trigger crossing.Trigger, by series.Definition) (d defined) {
	for i := range n.List {
		s := &n.List[i]
		normal, x := typical(n, i, trigger)
		if x.Reason != crossing.Dated {
			continue
		}
		y := s.Yearly(&s.Soil[n.ten], &normal.Soil, trigger, by)
		sd, years := y.SD()
		mid, ok1 := y.Quantile(0.5)
		early, ok2 := y.Quantile(0.1)
		late, ok3 := y.Quantile(0.9)
		if years < leastYears || !ok1 {
			continue
		}
		d.years += years
		d.shift = append(d.shift, math.Remainder(float64(mid-x.Day), 365))
		d.sd = append(d.sd, sd)
		if ok2 && ok3 {
			d.width = append(d.width, early.DaysTo(late))
		}
	}
	return d
}

// The standard deviation of the month's mean air temperature over the slope of
// the soil curve, times the factor of the spread package, is what the years
// show. In autumn it comes out up to two days long at low levels, where soil
// follows a cold spell less than air does.
func TestSpreadRuleAtReferenceStations(t *testing.T) {
	n := reference(t)
	for _, c := range []struct {
		direction crossing.Direction
		bias, mae float64
	}{{crossing.Warming, 1, 2.8}, {crossing.Cooling, 2.3, 2.9}} {
		for _, level := range []float64{50, 55, 60, 65} {
			trigger := crossing.Trigger{Level: units.F.Celsius(level), Direction: c.direction}
			var errs, abs, plain, ratio, seen []float64
			for i := range n.List {
				s := &n.List[i]
				normal, x := typical(n, i, trigger)
				if x.Reason != crossing.Dated {
					continue
				}
				y := s.Yearly(&s.Soil[n.ten], &normal.Soil, trigger, series.Trailing7)
				sd, years := y.SD()
				if years < leastYears || y.Count(crossing.Always) > 0 {
					continue
				}
				months, _ := s.MonthSD(&s.Air)
				at := between(months, x)
				e := spread.FromSlope(at, x.Slope) - sd
				errs, abs, plain = append(errs, e), append(abs, math.Abs(e)), append(plain, math.Abs(11-sd))
				seen = append(seen, sd)
				ratio = append(ratio, sd*x.Slope/float64(at))
			}
			bias, _ := mean(errs)
			mae, _ := mean(abs)
			fixed, _ := mean(plain)
			t.Logf("%v %v °F: %d stations, observed to sd/slope %.2f (median); rule less observed %+.1f d, mean absolute %.1f d, of 11 days for all %.1f d; observed %.1f d", c.direction, level, len(errs), median(ratio), bias, mae, fixed, median(seen))
			if math.Abs(bias) > c.bias || mae > c.mae || c.direction == crossing.Warming && mae > fixed {
				t.Errorf("%v %v °F: rule less observed %+.1f days, mean absolute %.1f; %.1f with one figure for all", c.direction, level, bias, mae, fixed)
			}
		}
	}
}

// between takes a month's figure to a day, straight lines from mid-month to
// mid-month.
func between(months [12]units.Delta, x crossing.Crossing) units.Delta {
	at := (float64(x.Day)-1)/365*12 - 0.5
	k := math.Floor(at)
	w := units.Delta(at - k)
	return months[(int(k)+12)%12]*(1-w) + months[(int(k)+13)%12]*w
}
