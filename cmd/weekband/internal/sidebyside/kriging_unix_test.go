//go:build unix

package sidebyside

import (
	"fmt"
	"math"
	"path/filepath"
	"sync"
	"testing"

	"weekband/grid"
	"weekband/grid/source"
	"weekband/grid/surface"
	"weekband/grid/units"
)

// What both sides krige with.
const (
	neighbours = 60
	rangeKm    = 200.0
	nugget     = 0.1 // of the sill
)

// middle is a part of the ground so small that a plane does for it.
var middle = grid.Box{West: -102, South: 33, East: -90, North: 41}

// kriging compares laying twelve months of stations over a grid. weekband
// solves a neighbourhood once for all months, and at nodes between which cells
// blend; gstat solves each cell and month.
func kriging(t *testing.T, e *expanse, s size) row {
	rows, cols, every := 8, 12, 5
	if s.rows > 300 {
		rows, cols, every = 64, 96, 300
	}
	g, err := grid.New(middle, rows, cols)
	if err != nil {
		t.Fatal(err)
	}
	stations := e.stations(every)
	model, _, err := surface.Fit(stations, nil, surface.Options{
		Neighbours: neighbours, KeepAll: true,
		Covariance: &surface.Covariance{Sill: 1, Nugget: nugget, RangeKm: rangeKm}})
	if err != nil {
		t.Fatal(err)
	}
	var all source.Rows
	ours := best(t, 1, func() error { return lay(model.Over(surface.Level(g)), &all) })

	var at [2][]float32
	months := make([][]float32, 12)
	for _, st := range stations.List {
		x, y := onPlane(st.At)
		at[0], at[1] = append(at[0], x), append(at[1], y)
		for m := range months {
			months[m] = append(months[m], float32(st.Mean[m]))
		}
	}
	writeFloats(t, filepath.Join(e.dir, "stations.f32"), append(at[:], months...)...)
	at = [2][]float32{}
	for i := range g.Cells() {
		x, y := onPlane(g.Center(grid.Cell{Row: i / cols, Col: i % cols}))
		at[0], at[1] = append(at[0], x), append(at[1], y)
	}
	writeFloats(t, filepath.Join(e.dir, "cells.f32"), at[:]...)
	theirs := script(t, "Rscript", "kriging.R", e.dir, fmt.Sprint(len(stations.List)), fmt.Sprint(g.Cells()),
		fmt.Sprint(threads), fmt.Sprint(neighbours), fmt.Sprint(rangeKm), fmt.Sprint(nugget))
	agree := compareKriged(t, &all, e.truth(g), readFloats(t, filepath.Join(e.dir, "kriged.f32")))
	return row{"kriging of 12 months", fmt.Sprintf("%d × %d cells, %d stations, %d neighbours", rows, cols, len(stations.List), neighbours),
		ours, theirs.cost, theirs.Tools, agree}
}

// stations puts one on every so many-th cell of land.
func (e *expanse) stations(every int) *surface.Stations {
	var out surface.Stations
	for k, cell := range e.normals.cells() {
		if k%every != 0 {
			continue
		}
		st := surface.Station{ID: fmt.Sprint(k), At: e.normals.grid.Center(cell)}
		for m, layer := range e.normals.rows.Vals {
			st.Mean[m] = units.Celsius(layer[cell.Row*e.normals.grid.Cols()+cell.Col])
		}
		out.List = append(out.List, st)
	}
	return &out
}

// lay reads all rows of a surface, some in each thread.
func lay(s *surface.Surface, all *source.Rows) error {
	g := s.Grid()
	all.Reset(12, g.Cells())
	errs := make([]error, threads)
	var wait sync.WaitGroup
	for k := range threads {
		wait.Go(func() {
			var part source.Rows
			for row := k; row < g.Rows() && errs[k] == nil; row += threads {
				errs[k] = s.Read(row, 1, &part)
				for m, vals := range part.Vals {
					copy(all.Vals[m][row*g.Cols():], vals)
				}
			}
		})
	}
	wait.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// onPlane returns km east and north of the middle: the azimuthal equidistant
// projection of the sphere (Snyder 1987, 25-2 and 22-4 to 22-5).
func onPlane(p grid.LonLat) (x, y float32) {
	c := middle.Center()
	sin0, cos0 := math.Sincos(c.Lat * math.Pi / 180)
	sinφ, cosφ := math.Sincos(p.Lat * math.Pi / 180)
	sinλ, cosλ := math.Sincos((p.Lon - c.Lon) * math.Pi / 180)
	away := math.Acos(min(1, sin0*sinφ+cos0*cosφ*cosλ))
	k := grid.EarthKm
	if away > 0 {
		k *= away / math.Sin(away)
	}
	return float32(k * cosφ * sinλ), float32(k * (cos0*sinφ - sin0*cosφ*cosλ))
}

// truth returns the normals at the middles of cells, NaN on water.
func (e *expanse) truth(g grid.Grid) []float32 {
	var out []float32
	for _, layer := range e.normals.rows.Vals {
		for i := range g.Cells() {
			v := float32(math.NaN())
			at, ok := e.normals.grid.Locate(g.Center(grid.Cell{Row: i / g.Cols(), Col: i % g.Cols()}))
			if j := at.Row*e.normals.grid.Cols() + at.Col; ok && e.normals.rows.Has[j] {
				v = layer[j]
			}
			out = append(out, v)
		}
	}
	return out
}

// compareKriged holds the estimates to 0.2 K of each other on average, and
// ours to no more than theirs from the truth, or nearly so. They differ by the
// blending, by the trust in stations, which with weekband falls with distance,
// and by the plane.
func compareKriged(t *testing.T, all *source.Rows, truth, theirs []float32) string {
	t.Helper()
	cells := len(all.Vals[0])
	if len(theirs) != 12*cells {
		t.Fatalf("%d estimates of 12 months of %d cells", len(theirs), cells)
	}
	var apart, ourError, theirError mean
	for i, v := range theirs {
		ours := all.Vals[i/cells][i%cells]
		apart.add(v, ours)
		if !math.IsNaN(float64(truth[i])) {
			ourError.add(ours, truth[i])
			theirError.add(v, truth[i])
		}
	}
	if !(apart.of() < 0.2 && ourError.of() < 1.05*theirError.of()) {
		t.Errorf("estimates differ by %.3f K on average; from the truth by %.3f and %.3f K", apart.of(), ourError.of(), theirError.of())
	}
	return fmt.Sprintf("%.2f K on average; from the truth %.3f and %.3f K", apart.of(), ourError.of(), theirError.of())
}

// mean is that of the distances of pairs.
type mean struct{ sum, n float64 }

func (m *mean) add(a, b float32) { m.sum, m.n = m.sum+math.Abs(float64(a-b)), m.n+1 }
func (m *mean) of() float64      { return m.sum / m.n }
