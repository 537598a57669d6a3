package worth_test

import (
	"compress/gzip"
	"io"
	"math"
	"os"
	"testing"
	"time"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/oracle"
	"weekband/grid/season"
	"weekband/grid/series"
	"weekband/grid/worth"
)

// raced is true under the race detector, under which 414,000 days take too
// long; the gate runs these tests without it.
var raced bool

// reference returns the stations of the U.S. Climate Reference Network, 2009 to
// 2024 (Diamond et al. 2013, BAMS 94:489; Bell et al. 2013, J. Hydrometeor.
// 14:977), and the index of their sensors at 10 cm.
func reference(t *testing.T) (stations []series.Station, sensor int) {
	t.Helper()
	paths := [2]string{oracle.Data(t, "us/soil-stations.csv"), oracle.Data(t, "us/soil-daily.csv.gz")}
	if raced {
		t.Skip("too slow under the race detector")
	}
	var files [2]io.Reader
	for i, path := range paths {
		f, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		files[i] = f
	}
	days, err := gzip.NewReader(files[1])
	if err != nil {
		t.Fatal(err)
	}
	n, err := series.Decode(series.Text{Reader: files[0], Name: paths[0]}, series.Text{Reader: days, Name: paths[1]})
	if err != nil {
		t.Fatal(err)
	}
	n.Clean(series.Rules{})
	sensor, ok := n.Depth(0.1)
	if !ok {
		t.Fatalf("no sensor at 10 cm among %v", n.Depths)
	}
	return n.List, sensor
}

// quarters are the moments, in days from the origin, at which 25, 50 and 75 %
// of a season's weeds are up.
type quarters [3]float64

// needed returns the degree-days of an emergence's quarters.
func needed(e *worth.Emergence) quarters { return passed(e.Share, 1000) }

// passed returns where a share that grows from 0 passes its quarters, before
// most.
func passed(share func(float64) float64, most float64) (q quarters) {
	for i := range q {
		lo, hi := 0.0, most
		for hi-lo > 1e-6 {
			if mid := (lo + hi) / 2; share(mid) < float64(i+1)/4 {
				lo = mid
			} else {
				hi = mid
			}
		}
		q[i] = lo
	}
	return q
}

// pass notes the quarters that degree-days pass while they rise from before to
// after, over a part of a day that ends at a moment.
func (q *quarters) pass(need *quarters, before, after, end, part float64) {
	for i, d := range need {
		if before < d && d <= after {
			q[i] = end - part*(after-d)/(after-before)
		}
	}
}

// ofCurve returns the quarters of a soil year by a plain sum over hours, with
// soil that varies by sigma about it; whole is false when the year ends before
// nearly all weeds are up.
func ofCurve(year *curve.Year, e *worth.Emergence, sign float64, origin season.Day, sigma float64) (q quarters, whole bool) {
	need, sum := needed(e), 0.0
	for k := range season.YearDays * hours {
		day := (k/hours + int(origin) - 1) % season.YearDays
		a, b := year[day], year[(day+1)%season.YearDays]
		soil := a + (b-a)*(float64(k%hours)+0.5)/hours
		after := sum + pastOnAverage(sign*(soil-e.Base), sigma)/hours
		q.pass(&need, sum, after, float64(k+1)/hours, 1.0/hours)
		sum = after
	}
	return q, e.Share(sum) > 0.999
}

// ofSeason returns the quarters of a season.
func ofSeason(s *worth.Season) quarters { return passed(s.Emerged, season.YearDays) }

// place is a station's soil, its season, and what its years did.
type place struct {
	year   curve.Year
	origin season.Day
	north  bool
	years  int
	mean   quarters // over the years
	inYear float64  // K, standard deviation of a day about its year's own level; NaN where soil is never near the base
}

// near is how far the typical soil may lie from the base, in K, for a day's
// swings to count: three of them.
const near = 6.0

// observe counts each year's degree-days from its own days; ok is false for
// stations of fewer than eight years or where a year ends before its weeds.
func observe(st *series.Station, sensor int, e *worth.Emergence, trigger crossing.Trigger) (p place, ok bool) {
	normal, ok := st.Normal(sensor, 0)
	if !ok {
		return p, false
	}
	normal.Soil.Sample(&p.year)
	p.origin = crossing.Find(&p.year, trigger).Origin
	p.north = st.At.Lat >= 38
	days := bridged(&st.Soil[sensor])
	need := needed(e)
	var all []ownYear
	for i := range days {
		if !leap(st.Date(i)) && math.Floor(float64(st.Date(i).Noon())) == float64(p.origin) {
			y, whole := p.count(st, days, i, e, trigger, &need)
			switch {
			case whole && y.up[2] == 0:
				return p, false
			case whole:
				all = append(all, y)
			}
		}
	}
	p.years = len(all)
	if p.years < 8 {
		return p, false
	}
	square, n := 0.0, 0
	for _, y := range all {
		for i := range p.mean {
			p.mean[i] += y.up[i] / float64(p.years)
		}
		level := 0.0
		for _, d := range y.departures {
			level += d / float64(len(y.departures))
		}
		for _, d := range y.departures {
			square += (d - level) * (d - level)
			n++
		}
	}
	p.inYear = math.Sqrt(square / float64(n))
	return p, true
}

// ownYear is one year of a station.
type ownYear struct {
	up         quarters
	departures []float64 // K, of the days that count, from the typical year
}

// count counts one year's degree-days from element i of a series on, until its
// third quarter. whole is false when a day is missing before that; days
// missing while the typical soil is 12 K short of the base do not matter.
func (p *place) count(st *series.Station, days []float64, i int, e *worth.Emergence, trigger crossing.Trigger, need *quarters) (y ownYear, whole bool) {
	sign := 1.0
	if trigger.Direction == crossing.Cooling {
		sign = -1
	}
	sum := 0.0
	for since := 0; since < season.YearDays; i++ {
		if i == len(days) {
			return y, false
		}
		if leap(st.Date(i)) {
			continue
		}
		since++
		typical := sign * (p.year.At(st.Date(i).Noon()) - e.Base)
		if math.IsNaN(days[i]) {
			if typical < -12 {
				continue
			}
			return y, false
		}
		past := sign * (days[i] - e.Base)
		if math.Abs(typical) < near {
			y.departures = append(y.departures, past-typical)
		}
		after := sum + max(0, past)
		y.up.pass(need, sum, after, float64(since), 1)
		if sum = after; sum >= need[2] {
			return y, true
		}
	}
	return y, true
}

// leap reports whether a date is a 29 February, which the typical year skips.
func leap(d series.Date) bool {
	_, month, day := d.YMD()
	return month == time.February && day == 29
}

// bridged returns a series with gaps of up to three days filled by straight
// lines and NaN in longer ones.
func bridged(v *series.Values) []float64 {
	days := make([]float64, len(v.Vals))
	last := -1
	for i := range days {
		days[i] = math.NaN()
		if !v.Has[i] {
			continue
		}
		days[i] = float64(v.Vals[i])
		if last >= 0 && i-last <= 4 {
			for k := last + 1; k < i; k++ {
				days[k] = days[last] + (days[i]-days[last])*float64(k-last)/float64(i-last)
			}
		}
		last = i
	}
	return days
}
