package classes_test

import (
	"cmp"
	"math/rand"
	"slices"
	"testing"

	"weekband/grid"
	"weekband/grid/classes"
)

// Quantiles agree with the slow way: all cells sorted, their areas added up.
func TestQuantilesAgreeWithASort(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	g, err := grid.New(grid.Box{West: 3, South: -20, East: 9, North: 61}, 81, 60)
	if err != nil {
		t.Fatal(err)
	}
	for _, scale := range []float64{0.001, 1, 250, 1e6} { // narrow and wide about the mean of both signs
		raster := grid.NewRaster[float32](g)
		type cell struct {
			v   float32
			km2 float64
		}
		var cells []cell
		total := 0.0
		for row := range g.Rows() {
			for col := range g.Cols() {
				if r.Intn(3) == 0 {
					continue
				}
				v := float32(scale * r.NormFloat64())
				if r.Intn(4) == 0 {
					v = float32(int(v)) // some are equal, some 0
				}
				raster.Set(grid.Cell{Row: row, Col: col}, v)
				cells = append(cells, cell{v, g.CellArea(row)})
				total += g.CellArea(row)
			}
		}
		slices.SortFunc(cells, func(a, b cell) int { return cmp.Compare(a.v, b.v) })
		shares := []float64{0, 0.02, 0.1, 0.25, 0.5, 0.77, 0.98, 1}
		got := classes.Quantiles(raster, shares...)
		for i, share := range shares {
			sum, want := 0.0, cells[len(cells)-1].v
			for _, c := range cells {
				if sum += c.km2; sum >= share*total*(1-1e-12) {
					want = c.v
					break
				}
			}
			if got[i] != float64(want) {
				t.Errorf("scale %g, share %g: %v, want %v", scale, share, got[i], want)
			}
		}
	}
}

func BenchmarkQuantiles(b *testing.B) {
	g, err := grid.New(grid.Box{West: 0, South: 0, East: 58, North: 26}, 596, 1385)
	if err != nil {
		b.Fatal(err)
	}
	r := rand.New(rand.NewSource(1))
	raster := grid.NewRaster[float32](g)
	for row := range g.Rows() {
		for col := range g.Cols() {
			raster.Set(grid.Cell{Row: row, Col: col}, float32(100+15*r.NormFloat64()))
		}
	}
	for b.Loop() {
		classes.Quantiles(raster, 0.05, 0.5, 0.95)
	}
	b.ReportMetric(float64(b.N)*float64(g.Cells())/b.Elapsed().Seconds(), "cells/s")
}
