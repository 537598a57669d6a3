package main

import (
	"bytes"
	"compress/gzip"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/oracle"
	"weekband/grid/season"
	"weekband/grid/series"
	"weekband/grid/units"
)

// lively is how much the days of a station stray from its typical year.
type lively struct {
	sd, alike, months float64 // K, correlation of a day with the next, K between monthly means
}

// strays measures the liveliness of one sensor.
func strays(st *series.Station, v *series.Values, usual *curve.Curve) (l lively) {
	var square, next, pairs, n float64
	last, had := 0.0, false
	for i, ok := range v.Has {
		over := float64(v.Vals[i]) - float64(usual.At(st.Date(i).Noon()))
		if ok {
			square += over * over
			n++
			if had {
				next += over * last
				pairs++
			}
		}
		last, had = over, ok
	}
	monthly, _ := st.MonthSD(v)
	for _, sd := range monthly {
		l.months += float64(sd) / 12
	}
	l.sd = math.Sqrt(square / n)
	l.alike = next / pairs / (square / n)
	return l
}

// usualOf is what is in the middle of the stations of a network: of air and of
// soil at 10 cm, and the standard deviation in days of the crossings of 55 °F
// from year to year.
func usualOf(t *testing.T, n *series.Network) (air, ground lively, days float64) {
	t.Helper()
	deep, ok := n.Depth(deepDepth)
	if !ok {
		t.Fatal("no sensor at 10 cm")
	}
	var all [2][]lively
	var yearly []float64
	for i := range n.List {
		st := &n.List[i]
		usual, ok := st.Normal(deep, 0)
		if !ok {
			continue
		}
		all[0] = append(all[0], strays(st, &st.Air, &usual.Air))
		all[1] = append(all[1], strays(st, &st.Soil[deep], &usual.Soil))
		y := st.Yearly(&st.Soil[deep], &usual.Soil, crossing.Trigger{Level: units.F.Celsius(55)}, series.Trailing7)
		if sd, years := y.SD(); years >= 4 {
			yearly = append(yearly, sd)
		}
	}
	slices.Sort(yearly)
	return median(all[0]), median(all[1]), yearly[len(yearly)/2]
}

func median(all []lively) lively {
	pick := func(part func(lively) float64) float64 {
		var v []float64
		for _, l := range all {
			v = append(v, part(l))
		}
		slices.Sort(v)
		return v[len(v)/2]
	}
	return lively{
		sd:     pick(func(l lively) float64 { return l.sd }),
		alike:  pick(func(l lively) float64 { return l.alike }),
		months: pick(func(l lively) float64 { return l.months }),
	}
}

// reference is the middle of 77 stations of the U.S. Climate Reference
// Network, 2009 to 2024 (Diamond et al. 2013, BAMS 94:489; Bell et al. 2013,
// J. Hydrometeor. 14:977), by TestReferenceIsAsLively.
var reference = struct {
	air, ground lively
	days        float64
}{
	air:    lively{4.3, 0.72, 1.7},
	ground: lively{2.0, 0.91, 1.3},
	days:   11.1,
}

// Days of the territory are as lively as those of real stations.
func TestWeatherIsAsLively(t *testing.T) {
	air, ground, days := usualOf(t, publishedNetwork(t))
	t.Logf("air %.2f, soil %.2f, crossings %.1f days", air, ground, days)
	want := reference
	near(t, "air", air, want.air)
	near(t, "soil at 10 cm", ground, want.ground)
	if days < 8.5 || days > want.days+1.5 {
		t.Errorf("crossings differ by %.1f days from year to year, real ones by %.1f", days, want.days)
	}
}

func near(t *testing.T, what string, got, want lively) {
	t.Helper()
	if math.Abs(got.sd/want.sd-1) > 0.15 || math.Abs(got.alike-want.alike) > 0.05 || math.Abs(got.months/want.months-1) > 0.2 {
		t.Errorf("%s strays %.2f, real one %.2f", what, got, want)
	}
}

// The figures in reference, from the data themselves.
func TestReferenceIsAsLively(t *testing.T) {
	if testing.Short() || raced {
		t.Skip("400,000 days")
	}
	sites := oracle.Data(t, "us/soil-stations.csv")
	values := oracle.Data(t, "us/soil-daily.csv.gz")
	air, ground, days := usualOf(t, decoded(t, sites, values))
	t.Logf("air %.2f, soil %.2f, crossings %.1f days", air, ground, days)
	if math.Abs(days-reference.days) > 0.06 {
		t.Errorf("crossings differ by %.1f days, noted are %.1f", days, reference.days)
	}
	for _, c := range []struct{ got, want, tol float64 }{
		{air.sd, reference.air.sd, 0.06}, {air.alike, reference.air.alike, 0.006}, {air.months, reference.air.months, 0.06},
		{ground.sd, reference.ground.sd, 0.06}, {ground.alike, reference.ground.alike, 0.006}, {ground.months, reference.ground.months, 0.06},
	} {
		if math.Abs(c.got-c.want) > c.tol {
			t.Errorf("%.3f, noted is %v", c.got, c.want)
		}
	}
}

// decoded reads a network and takes out what cannot be right.
func decoded(t *testing.T, sites, values string) *series.Network {
	t.Helper()
	data := [2][]byte{}
	for i, name := range []string{sites, values} {
		var err error
		if data[i], err = os.ReadFile(name); err != nil {
			t.Fatal(err)
		}
	}
	zip, err := gzip.NewReader(bytes.NewReader(data[1]))
	if err != nil {
		t.Fatal(err)
	}
	n, err := series.Decode(series.Text{Reader: bytes.NewReader(data[0]), Name: sites}, series.Text{Reader: zip, Name: values})
	if err != nil {
		t.Fatal(err)
	}
	n.Clean(series.Rules{})
	return n
}

func publishedNetwork(t *testing.T) *series.Network {
	t.Helper()
	return decoded(t, filepath.Join(published, sitesName), filepath.Join(published, valuesName))
}

// Against sums over many days: an autoregressive series has the deviation and
// the likeness asked for, and shares keep the deviation.
func TestDriftingIsWhatItSays(t *testing.T) {
	w := newWeather()
	var square, next float64
	for _, v := range w.days {
		for i := 1; i < len(v); i++ {
			square += v[i] * v[i]
			next += v[i] * v[i-1]
		}
	}
	n := float64(len(w.days) * (len(w.dates) - 1))
	if sd := math.Sqrt(square / n); math.Abs(sd-1) > 0.02 {
		t.Errorf("standard deviation %.3f, want 1", sd)
	}
	if alike := next / square; math.Abs(alike-dayAlike) > 0.01 {
		t.Errorf("a day and the next are alike by %.3f, want %.2f", alike, dayAlike)
	}
	sum := 0.0
	for _, share := range w.shares(plan{3, 4}) {
		sum += share * share
	}
	if math.Abs(sum-1) > 1e-12 {
		t.Errorf("squares of the shares sum to %v", sum)
	}
}

// Noon of 1 January lies halfway between the first two samples, midnight of
// 31 December between the last and the first.
func TestSampleIsPeriodic(t *testing.T) {
	var year curve.Year
	year[0], year[1], year[364] = 2, 4, 8
	for d, want := range map[season.Day]float64{1: 2, 1.5: 3, 365.5: 5, 365: 8} {
		if got := year.At(d); got != want {
			t.Errorf("day %v: %v, want %v", d, got, want)
		}
	}
}
