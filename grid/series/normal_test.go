package series_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/series"
	"weekband/grid/units"
)

// rich has waves up to order 4.
func rich() curve.Curve {
	c := wave(9, 13, 20)
	c.Cos[1], c.Sin[1], c.Cos[2], c.Sin[3] = 1.1, -0.7, 0.4, 0.2
	return c
}

// Daily means of a curve, each an average over its own day, give the curve
// back, over leap years and through gaps.
func TestNormalFindsTheCurveBack(t *testing.T) {
	c := rich()
	s := days(series.NewDate(2007, time.March, 5), series.NewDate(2013, time.May, 2), func(d series.Date) float64 {
		sum := 0.0
		for q := range 24 {
			sum += float64(c.At(d.Noon()-0.5+season.Day((float64(q)+0.5)/24))) / 24
		}
		return sum
	})
	take(&s.Soil[0], 400, 700)
	take(&s.Air, 1000, 1100)
	n, ok := s.Normal(0, 0)
	if !ok || n.Pairs != s.Len()-301-101 {
		t.Fatalf("%v, %d pairs of %d", ok, n.Pairs, s.Len())
	}
	for d := season.Day(1); d < 366; d += 3.7 {
		if math.Abs(float64(n.Soil.At(d)-c.At(d))) > 5e-5 || math.Abs(float64(n.Air.At(d)-c.At(d))) > 5e-5 {
			t.Fatalf("%v: soil %v, air %v, want %v", d, n.Soil.At(d), n.Air.At(d), c.At(d))
		}
	}
	if n.DaySoil > 3e-4 || n.SESoil[3] > 1e-4 {
		t.Errorf("an exact fit has the deviation %v and the error %v", n.DaySoil, n.SESoil[3])
	}
	if low, ok := s.Normal(0, 1); !ok || math.Abs(float64(low.DaySoil)-math.Sqrt((1.1*1.1+0.7*0.7+0.4*0.4+0.2*0.2)/2)) > 0.02 {
		t.Errorf("order 1 leaves %v, want what the higher waves hold", low.DaySoil)
	}
}

// Only days with both count: an odd spring that only air saw is in neither.
func TestNormalPairs(t *testing.T) {
	c := rich()
	s := days(series.NewDate(2007, time.January, 1), series.NewDate(2010, time.December, 31), func(d series.Date) float64 { return float64(c.At(d.Noon())) })
	for i := 60; i < 150; i++ {
		s.Air.Vals[i] += 9
	}
	take(&s.Soil[0], 60, 149)
	n, ok := s.Normal(0, 4)
	if !ok || math.Abs(float64(n.Air.At(105)-c.At(105))) > 1e-3 {
		t.Errorf("%v: air in April %v, want %v", ok, n.Air.At(105), c.At(105))
	}
}

func TestNormalNeedsEveryMonth(t *testing.T) {
	c := rich()
	s := days(series.NewDate(2007, time.February, 1), series.NewDate(2007, time.December, 31), func(d series.Date) float64 { return float64(c.At(d.Noon())) })
	if n, ok := s.Normal(0, 4); ok {
		t.Errorf("a typical year without January: %+v", n)
	}
}

// The standard error of soil is the spread of the years over their root; that
// of the difference knows nothing of what air and soil share.
func TestNormalErrors(t *testing.T) {
	c := rich()
	rng := rand.New(rand.NewPCG(9, 9))
	var warm, own [400]float64
	for y := range warm {
		warm[y], own[y] = 1.5*rng.NormFloat64(), 0.3*rng.NormFloat64()
	}
	s := days(series.NewDate(1700, time.January, 1), series.NewDate(2099, time.December, 31), func(d series.Date) float64 {
		y, _, _ := d.YMD()
		return float64(c.At(d.Noon())) + warm[y-1700]
	})
	for i := range s.Soil[0].Vals {
		y, _, _ := s.Date(i).YMD()
		s.Soil[0].Vals[i] += float32(own[y-1700])
	}
	n, ok := s.Normal(0, 4)
	both := math.Hypot(1.5, 0.3)
	if !ok || n.Years[6] != 400 || math.Abs(float64(n.SESoil[6])*20/both-1) > 0.1 || math.Abs(float64(n.SEDifference[6])*20/0.3-1) > 0.1 || math.Abs(float64(n.DaySoil)/both-1) > 0.1 {
		t.Errorf("%v: soil %v, difference %v of %d years, days %v", ok, n.SESoil[6], n.SEDifference[6], n.Years[6], n.DaySoil)
	}
	sd, years := s.MonthSD(&s.Air)
	if years[6] != 400 || math.Abs(float64(sd[6])/1.5-1) > 0.1 {
		t.Errorf("July varies by %v K over %d years, want about 1.5", sd[6], years[6])
	}
}

// Series of months go through the exact curve of their means.
func TestNormalOfMonths(t *testing.T) {
	s := series.Station{Monthly: true, First: series.NewDate(2000, time.July, 1)}
	var want [12]units.Celsius
	for i := range 48 {
		m := (i + 6) % 12
		v := float32(10 - 9*math.Cos(float64(m)/6*math.Pi))
		want[m] = units.Celsius(v) // the odd years' half a degree cancels
		year := float32(i/12%2) - 0.5
		s.Air.Vals, s.Air.Has = append(s.Air.Vals, v+year), append(s.Air.Has, true)
	}
	s.Soil = []series.Values{s.Air}
	n, ok := s.Normal(0, 0)
	if !ok || n.Years[0] != 4 || math.Abs(float64(n.DaySoil)-0.5) > 1e-6 || math.Abs(float64(n.SESoil[3])-0.5/math.Sqrt(3)) > 1e-6 {
		t.Fatalf("%v: %+v", ok, n)
	}
	for m, got := range n.Soil.MonthMeans() {
		if math.Abs(float64(got-want[m])) > 1e-5 {
			t.Errorf("month %d: %v, want %v", m+1, got, want[m])
		}
	}
}

// numpy.linalg.lstsq of order 4 through the noons of the same days, without 29
// February, gives these first terms of soil at 10 cm at station 03054.
func TestNormalAgainstNumpy(t *testing.T) {
	const numpyMean, numpyCos, numpySin = 17.69006, -12.32302, -2.88129
	n := reference(t)
	for i := range n.List {
		if n.List[i].ID != "03054" {
			continue
		}
		got, ok := n.List[i].Normal(n.ten, 4)
		if !ok || math.Abs(got.Soil.Mean-numpyMean) > 2e-3 || math.Abs(got.Soil.Cos[0]-numpyCos) > 3e-3 || math.Abs(got.Soil.Sin[0]-numpySin) > 3e-3 {
			t.Errorf("%v: mean %.4f, waves %.4f and %.4f, want %v, %v, %v", ok, got.Soil.Mean, got.Soil.Cos[0], got.Soil.Sin[0], numpyMean, numpyCos, numpySin)
		}
		return
	}
	t.Error("no station 03054")
}
