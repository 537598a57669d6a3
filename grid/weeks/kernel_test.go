package weeks

import (
	"math"
	"math/rand/v2"
	"testing"

	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/source"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/worth"
)

// country is normals of a row across a country, from frozen winters to mild
// ones: neighbours differ by little.
type country struct {
	grid grid.Grid
	rows source.Rows
}

func newCountry(b *testing.B, cols int) *country {
	b.Helper()
	g, err := grid.New(grid.Box{West: -104, South: 38, East: -76, North: 38.1}, 1, cols)
	if err != nil {
		b.Fatal(err)
	}
	c := &country{grid: g}
	c.rows.Reset(12, cols)
	rng := rand.New(rand.NewPCG(9, 9))
	for i := range cols {
		c.rows.Has[i] = true
		at := float64(i) / float64(cols)
		mean, a, late := 6+14*at, 15-5*at, 22+6*math.Sin(9*at)
		for m := range 12 {
			mid := 30.4*float64(m) + 15
			c.rows.Vals[m][i] = float32(math.Round(10*(mean-a*math.Cos(2*math.Pi*(mid-late)/365)+0.2*math.Sin(7*at+float64(m*m))+0.1*rng.NormFloat64())) / 10)
		}
	}
	return c
}

func (c *country) Grid() grid.Grid                       { return c.grid }
func (c *country) Layers() int                           { return 12 }
func (c *country) Read(_, _ int, dst *source.Rows) error { *dst = c.rows; return nil }

// BenchmarkCrossing is months → soil → crossing of one window on one
// processor, without calendar: of calibrated soil that lags and freezes, and of
// air.
func BenchmarkCrossing(b *testing.B) {
	const cols = 4096
	c := newCountry(b, cols)
	trigger := crossing.Trigger{Level: 115.0 / 9, Direction: crossing.Warming} // 55 °F
	for name, opts := range map[string]Options{
		"calibrated": {Offsets: calibration.US().Over(c.grid)},
		"none":       {Soil: &soil.Air},
	} {
		b.Run(name, func(b *testing.B) {
			w := newWorker(c, nil, opts, nil)
			if err := w.read(0, 1); err != nil {
				b.Fatal(err)
			}
			crossed := 0
			for b.Loop() {
				crossed = 0
				w.begin(0)
				for i := range cols {
					w.warm(i, i)
					found, ok := w.seek(trigger)
					if !ok {
						found = w.Find(trigger)
					}
					if found.Reason.Crosses() {
						crossed++
					}
				}
			}
			b.ReportMetric(float64(b.N)*cols/b.Elapsed().Seconds(), "cells/s")
			if crossed < cols/2 {
				b.Fatalf("only %d of %d cells cross", crossed, cols)
			}
		})
	}
}

// raced tells that the race detector watches.
var raced bool

// anyAir returns a year of air from arctic to tropical, some with months far
// off a wave, some flat.
func anyAir(rng *rand.Rand) curve.Curve {
	var months [12]units.Celsius
	mean, a, late := -12+42*rng.Float64(), 26*rng.Float64()*rng.Float64(), 365*rng.Float64()
	rough := []float64{0, 0.3, 1, 3}[rng.IntN(4)]
	for m := range months {
		mid := 30.4*float64(m) + 15
		months[m] = units.Celsius(mean - a*math.Cos(2*math.Pi*(mid-late)/365) + rough*rng.NormFloat64())
	}
	return curve.FromMonths(&months)
}

// bySteps returns soil under air by the obvious method: the lag followed in
// steps of an eightieth of a day, from two years before.
func bySteps(m soil.Model, air *curve.Curve) *curve.Year {
	const parts, steps = 8, 10
	var felt [season.YearDays*parts + 1]float64
	for i := range felt {
		felt[i] = float64(air.At(season.Day(1 + float64(i)/parts)))
		if felt[i] < 0 {
			felt[i] *= m.Frozen
		}
	}
	var year curve.Year
	y := felt[0]
	for i := range 3 * season.YearDays * parts {
		from, to := felt[i%(len(felt)-1)], felt[i%(len(felt)-1)+1]
		if day := i / parts; i%parts == 0 && day >= 2*season.YearDays {
			year[day-2*season.YearDays] = y
		}
		for s := range steps {
			x := from + (to-from)*(float64(s)+0.5)/steps
			half := y + (x-y)/m.Lag/(2*parts*steps)
			y += (x - half) / m.Lag / (parts * steps)
		}
	}
	for i := range year {
		x := 2 * math.Pi * float64(i) / season.YearDays
		year[i] += m.Offset.Mean + m.Offset.Cos1*math.Cos(x) + m.Offset.Sin1*math.Sin(x) + m.Offset.Cos2*math.Cos(2*x) + m.Offset.Sin2*math.Sin(2*x)
	}
	return &year
}

// What a cell gives in closed form is what the obvious method gives, to 0.02
// days: over years from arctic to tropical, smooth, rough and flat.
func TestCellsAgainstTheObviousMethod(t *testing.T) {
	rng := rand.New(rand.NewPCG(55, 50))
	n := 600
	if raced {
		n = 60
	}
	reasons, unclear, late, worst := map[crossing.Reason]int{}, 0, 0, 0.0
	for i := range n {
		air := anyAir(rng)
		model := soil.Default
		model.Offset = soil.Offset{Mean: 1.6 + rng.NormFloat64(), Cos1: rng.NormFloat64(), Sin1: rng.NormFloat64(), Cos2: 0.5 * rng.NormFloat64(), Sin2: 0.5 * rng.NormFloat64()}
		g := ground{response: model.Response()}
		air.Sketch(&g.sketch)
		g.lay(&air, &model.Offset)
		slow := status.Daily{Soil: bySteps(model, &air), Season: new(worth.Season)}
		for _, trigger := range []crossing.Trigger{
			{Level: 115.0 / 9, Direction: crossing.Warming}, {Level: 190.0 / 9, Direction: crossing.Cooling},
			{Level: units.Celsius(3 + 20*rng.Float64()), Direction: crossing.Warming}, {Level: units.Celsius(3 + 20*rng.Float64()), Direction: crossing.Cooling},
		} {
			if _, ok := g.seek(trigger); !ok {
				unclear++
			}
			got, want := g.Find(trigger), slow.Find(trigger)
			reasons[want.Reason]++
			const hair = 0.004 // K, and K/d
			switch {
			case got.Reason == want.Reason:
			case math.Abs(float64(want.Coldest-trigger.Level)) < hair || math.Abs(float64(want.Warmest-trigger.Level)) < hair:
				continue
			case got.Reason.Crosses() && want.Reason.Crosses() && math.Abs(want.Slope-crossing.FlatSlope) < hair:
			default:
				t.Fatalf("year %d, %+v: %+v, want %+v", i, trigger, got, want)
			}
			if !want.Reason.Crosses() {
				continue
			}
			switch off := math.Abs(want.Day.Apart(got.Day)); {
			case off <= 0.02 && want.Reason == crossing.Dated:
				worst = max(worst, off)
			case want.Reason == crossing.Flat && off*max(want.Slope, 0.01) < hair:
			case off > 0.02:
				t.Fatalf("year %d, %+v: %v days off; %+v, want %+v", i, trigger, off, got, want)
			}
			if want.Reason == crossing.Dated {
				onset := want.Origin.DaysTo(want.Day)
				w := status.Window{Trigger: trigger, Treatment: worth.Usual([]float64{15, 60, 200}[i%3]), WorthFloor: 0.25}
				a, okA := g.LastAbove(&w, got.Origin, 11, onset)
				b, okB := slow.LastAbove(&w, want.Origin, 11, onset)
				a += want.Origin.Apart(got.Origin)
				switch off := math.Abs(a - b); {
				case okA != okB || okA && off > 2:
					t.Errorf("year %d, %+v: worth falls %v days after the origin (%v), want %v (%v)", i, trigger, a, okA, b, okB)
				case okA && off > 0.05 && math.Abs(slow.Season.At(a)-w.WorthFloor) > 0.002:
					late++
				}
			}
			if math.Abs(float64(got.Coldest-want.Coldest)) > hair || math.Abs(float64(got.Warmest-want.Warmest)) > hair || math.Abs(want.Origin.Apart(got.Origin)) > 1 {
				t.Errorf("year %d, %+v: %+v, want %+v", i, trigger, got, want)
			}
		}
	}
	for _, r := range []crossing.Reason{crossing.Dated, crossing.Flat, crossing.Never, crossing.Always} {
		if reasons[r] < n/20 {
			t.Errorf("only %d crossings are %v", reasons[r], r)
		}
	}
	// Of years whose months jump by several kelvins, some warm too fast for a
	// season at 96 moments.
	if late > n/100 {
		t.Errorf("worth falls on another day in %d years", late)
	}
	t.Logf("%v; %d looked at day by day; at most %.4f days off", reasons, unclear, worst)
}
