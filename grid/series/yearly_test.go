package series_test

import (
	"math"
	"testing"
	"time"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/series"
	"weekband/grid/units"
)

// days makes a daily station whose air and soil are both f of the date.
func days(first, last series.Date, f func(series.Date) float64) *series.Station {
	n := int(last-first) + 1
	v := series.Values{Vals: make([]float32, n), Has: make([]bool, n)}
	for i := range n {
		v.Vals[i], v.Has[i] = float32(f(first+series.Date(i))), true
	}
	return &series.Station{ID: "A", First: first, Air: v, Soil: []series.Values{{Vals: append([]float32(nil), v.Vals...), Has: append([]bool(nil), v.Has...)}}}
}

// wave is coldest on a day of the typical year.
func wave(mean, amplitude float64, coldest season.Day) curve.Curve {
	c := curve.Curve{Mean: mean}
	s, o := math.Sincos(2 * math.Pi * float64(coldest-1) / season.YearDays)
	c.Cos[0], c.Sin[0] = -amplitude*o, -amplitude*s
	return c
}

func take(v *series.Values, from, to int) {
	for i := from; i <= to; i++ {
		v.Vals[i], v.Has[i] = 0, false
	}
}

// On a smooth series every definition has its place by arithmetic: the first
// day is the first whose noon is past the level, and the mean of seven days on
// a straight line lags three.
func TestDefinitionsOnASmoothYear(t *testing.T) {
	c := wave(10, 10, 20.5)
	s := days(series.NewDate(2009, time.June, 1), series.NewDate(2013, time.December, 31), func(d series.Date) float64 { return float64(c.At(d.Noon())) })
	for _, direction := range []crossing.Direction{crossing.Warming, crossing.Cooling} {
		for by, want := range map[series.Definition]float64{series.FirstDay: 0.5, series.FiveDays: 0.5, series.LastBelow: 0.5, series.Trailing7: 3.5, series.Centred7: 0.5} {
			y := s.Yearly(&s.Soil[0], &c, crossing.Trigger{Level: 10, Direction: direction}, by)
			seasons := map[crossing.Direction]int{crossing.Warming: 4, crossing.Cooling: 5}[direction] // the record begins in June
			if y.Count(crossing.Dated) != seasons {
				t.Fatalf("%v %v: %+v", direction, by, y.Years)
			}
			for _, year := range y.Years {
				if year.Reason != crossing.Dated {
					continue
				}
				if got := y.Normal.Day.DaysTo(year.Day); math.Abs(got-want) > 0.51 { // noons are a day apart
					t.Errorf("%v %v: %v is %.2f days after the typical day, want about %.1f", direction, by, year.Date, got, want)
				}
				if n, _, _ := year.Date.YMD(); n != year.Year {
					t.Errorf("%v: the season of %v is called %d", direction, year.Date, year.Year)
				}
			}
		}
	}
}

// stairs is 0 °C before a day of each year and 10 °C from then on to 1
// September.
func stairs(day map[int]time.Month) func(series.Date) float64 {
	return func(d series.Date) float64 {
		y, m, _ := d.YMD()
		if up, ok := day[y]; ok && m >= up && m < time.September {
			return 10
		}
		return 0
	}
}

var may = map[int]time.Month{2010: time.May, 2011: time.May, 2012: time.May, 2013: time.May}

// A gap before the crossing must not make a late date, nor the end of the
// record leave only early years.
func TestGapsDoNotDate(t *testing.T) {
	c := wave(5, 8, 15.5) // typical crossing in the middle of April
	trigger := crossing.Trigger{Level: 5}
	first, last := series.NewDate(2009, time.October, 1), series.NewDate(2013, time.November, 30)
	index := func(y int, m time.Month, d int) int { return int(series.NewDate(y, m, d) - first) }
	for name, g := range map[string]struct {
		from, to int
		want     crossing.Reason // of 2011
		date     string
	}{
		"none":                {0, -1, crossing.Dated, "2011-05-04"},
		"three days":          {index(2011, 4, 20), index(2011, 4, 22), crossing.Dated, "2011-05-04"},
		"over the crossing":   {index(2011, 4, 25), index(2011, 5, 10), crossing.NoData, ""},
		"two months before":   {index(2011, 2, 20), index(2011, 3, 1), crossing.Dated, "2011-05-04"},
		"a month before":      {index(2011, 4, 2), index(2011, 4, 9), crossing.NoData, ""},
		"most of the winter":  {index(2011, 1, 16), index(2011, 2, 25), crossing.NoData, ""},
		"right after":         {index(2011, 5, 8), index(2011, 5, 14), crossing.NoData, ""},
		"long after":          {index(2011, 6, 20), index(2011, 8, 30), crossing.Dated, "2011-05-04"},
		"the whole of spring": {index(2011, 1, 1), index(2011, 6, 30), crossing.NoData, ""},
	} {
		s := days(first, last, stairs(may))
		take(&s.Soil[0], g.from, g.to)
		y := s.Yearly(&s.Soil[0], &c, trigger, series.Trailing7)
		for _, year := range y.Years {
			if year.Year == 2011 && (year.Reason != g.want || year.Reason == crossing.Dated && year.Date.String() != g.date) {
				t.Errorf("%s: %v on %v, want %v on %v", name, year.Reason, year.Date, g.want, g.date)
			}
			if year.Year == 2012 && year.Reason != crossing.Dated {
				t.Errorf("%s: 2012 is %v", name, year.Reason)
			}
		}
	}
	short := days(first, series.NewDate(2013, time.May, 8), stairs(map[int]time.Month{2012: time.May, 2013: time.April}))
	y := short.Yearly(&short.Soil[0], &c, trigger, series.Trailing7)
	if last := y.Years[len(y.Years)-1]; last.Year != 2013 || last.Reason != crossing.NoData {
		t.Errorf("a record that ends on 8 May has %+v, though most years cross later", last)
	}
}

func TestYearsThatNeverCross(t *testing.T) {
	c := wave(5, 8, 15.5)
	s := days(series.NewDate(2009, time.October, 1), series.NewDate(2014, time.November, 30), stairs(map[int]time.Month{2010: time.May, 2011: time.June, 2012: time.January}))
	// 2013 and 2014 stay at 0 °C; 2014's season does not end in the record, but
	// its summer does. 2012 is past the level on the coldest day.
	y := s.Yearly(&s.Soil[0], &c, crossing.Trigger{Level: 5}, series.Trailing7)
	for reason, want := range map[crossing.Reason]int{crossing.Dated: 2, crossing.Always: 1, crossing.Never: 2} {
		if got := y.Count(reason); got != want {
			t.Errorf("%d years are %v, want %d: %+v", got, reason, want, y.Years)
		}
	}
	// Sorted: past, 4 May, 4 June, never, never.
	if q, ok := y.Quantile(0.5); !ok || q.String() != "Jun 4" {
		t.Errorf("median %v, %v", q, ok)
	}
	if q, ok := y.Quantile(0.25); !ok || q.String() != "May 4" {
		t.Errorf("early year %v, %v", q, ok)
	}
	for _, p := range []float64{0, 0.1, 0.6, 0.75, 0.9} {
		if q, ok := y.Quantile(p); ok {
			t.Errorf("quantile %v is %v, though it lies among years without a date", p, q)
		}
	}
	if sd, n := y.SD(); n != 2 || math.Abs(sd-31/math.Sqrt2) > 1e-9 {
		t.Errorf("standard deviation %v of %d", sd, n)
	}
	if q, ok := new(series.Yearly).Quantile(0.5); ok {
		t.Errorf("no years have the median %v", q)
	}
}

// South of the equator the season lies the other way, and a season that spans
// New Year does not split.
func TestSouthernAndNewYear(t *testing.T) {
	for _, coldest := range []season.Day{200.5, 362.5, 290.5} {
		c := wave(15, 5, coldest)
		s := days(series.NewDate(2009, time.January, 1), series.NewDate(2019, time.December, 31), func(d series.Date) float64 {
			return float64(c.At(d.Noon())) + 0.3*math.Sin(float64(d))
		})
		for _, direction := range []crossing.Direction{crossing.Warming, crossing.Cooling} {
			y := s.Yearly(&s.Soil[0], &c, crossing.Trigger{Level: 15, Direction: direction}, series.Trailing7)
			mid, ok := y.Quantile(0.5)
			sd, n := y.SD()
			if !ok || math.Abs(y.Normal.Day.DaysTo(mid)-3.5) > 1 || sd > 1.5 || n < 9 {
				t.Errorf("coldest %v, %v: median %v of %d years, sd %.1f; the curve crosses on %v", coldest, direction, mid, n, sd, y.Normal.Day)
			}
		}
	}
}

func TestMonthsHaveNoYears(t *testing.T) {
	s := days(0, 40, func(series.Date) float64 { return 1 })
	s.Monthly = true
	c := wave(5, 8, 15.5)
	if y := s.Yearly(&s.Soil[0], &c, crossing.Trigger{Level: units.Celsius(5)}, series.Trailing7); len(y.Years) != 0 || !y.Normal.Reason.HasDay() {
		t.Errorf("%+v", y)
	}
}
