package weeks

import (
	"math"
	"math/rand/v2"
	"testing"

	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/crossing"
	"weekband/grid/soil"
	"weekband/grid/source"
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
			w := newWorker(c, nil, opts)
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
