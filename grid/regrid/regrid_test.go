package regrid_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid"
	"weekband/grid/oracle"
	"weekband/grid/regrid"
	"weekband/grid/source"
)

func box(t testing.TB, b grid.Box, rows, cols int) grid.Grid {
	t.Helper()
	g, err := grid.New(b, rows, cols)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

var vale = grid.Box{West: -91, South: 37, East: -84, North: 39.5}

// filled is a raster from a function of the cell's centre.
func filled(g grid.Grid, f func(p grid.LonLat) float64) *grid.Raster[float32] {
	r := grid.NewRaster[float32](g)
	for row := range g.Rows() {
		for col := range g.Cols() {
			c := grid.Cell{Row: row, Col: col}
			r.Set(c, float32(f(g.Center(c))))
		}
	}
	return r
}

// plane is linear, so bilinear interpolation must return it exactly.
func plane(p grid.LonLat) float64 { return 3 + 2*p.Lon - p.Lat }

func ExampleRaster() {
	coarse, err := grid.New(grid.Box{West: 0, South: 0, East: 4, North: 4}, 2, 2)
	if err != nil {
		fmt.Println(err)
		return
	}
	fine, err := grid.New(grid.Box{West: 1, South: 1, East: 3, North: 3}, 2, 2)
	if err != nil {
		fmt.Println(err)
		return
	}
	r := grid.NewRaster[float32](coarse)
	r.Set(grid.Cell{Row: 0, Col: 0}, 10) // centre 1 E, 3 N
	r.Set(grid.Cell{Row: 0, Col: 1}, 20)
	r.Set(grid.Cell{Row: 1, Col: 0}, 30)
	r.Set(grid.Cell{Row: 1, Col: 1}, 40)
	v, _ := regrid.Raster(r, fine).At(grid.Cell{Row: 0, Col: 0}) // centre 1.5 E, 2.5 N
	fmt.Println(v)                                               // 10·¾·¾ + 20·¼·¾ + 30·¾·¼ + 40·¼·¼
	// Output: 17.5
}

func TestRasterIsExactOnAPlane(t *testing.T) {
	src := filled(box(t, vale, 50, 70), plane)
	fine := box(t, grid.Box{West: -90, South: 37.5, East: -85, North: 39}, 163, 211)
	for cell, v := range regrid.Raster(src, fine).All() {
		if want := plane(fine.Center(cell)); math.Abs(float64(v)-want) > 1e-4 {
			t.Fatalf("%v: %v, want %v", cell, v, want)
		}
	}
	coarse := box(t, vale, 5, 7) // ten by ten cells in each
	for cell, v := range regrid.Raster(src, coarse).All() {
		if want := plane(coarse.Center(cell)); math.Abs(float64(v)-want) > 2e-3 { // cells of a row differ in area
			t.Fatalf("coarse %v: %v, want %v", cell, v, want)
		}
	}
}

func TestRasterKeepsTheCoast(t *testing.T) {
	src := filled(box(t, vale, 5, 7), plane)
	sea := grid.NewRaster[float32](src.Grid())
	for cell, v := range src.All() {
		if cell.Col < 3 {
			sea.Set(cell, v)
		}
	}
	fine := box(t, vale, 50, 70)
	out := regrid.Raster(sea, fine)
	for row := range 50 {
		for col := range 70 {
			if _, ok := out.At(grid.Cell{Row: row, Col: col}); ok != (col < 30) {
				t.Fatalf("column %d has a value: %v; the coast is at 30", col, ok)
			}
		}
	}
}

// year is normals of 12 layers from a function of place and month.
type year struct {
	g grid.Grid
	f func(p grid.LonLat, month int) (float64, bool)
}

func (y year) Grid() grid.Grid { return y.g }
func (y year) Layers() int     { return 12 }
func (y year) Read(first, rows int, dst *source.Rows) error {
	dst.Reset(12, rows*y.g.Cols())
	for i := range dst.Has {
		p := y.g.Center(grid.Cell{Row: first + i/y.g.Cols(), Col: i % y.g.Cols()})
		for m := range 12 {
			v, ok := y.f(p, m)
			dst.Vals[m][i], dst.Has[i] = float32(v), ok
		}
	}
	return nil
}

// hill is a terrain with ridges every half degree, up to 1,200 m.
func hill(p grid.LonLat) float64 {
	return 600 + 600*math.Sin(4*math.Pi*p.Lon)*math.Cos(2*math.Pi*p.Lat)
}

// air falls by 6 K/km in every month and is else the same everywhere.
func air(p grid.LonLat, month int) float64 { return 15 + float64(month) - 0.006*hill(p) }

// The mean of fine air over coarse cells, brought back to fine cells with the
// terrain, must be nearer to the truth than without it, and near: the lapse
// rate is found from the data.
func TestTerrainBringsBackTheDetail(t *testing.T) {
	fine := box(t, vale, 100, 280)
	terrain := filled(fine, hill)
	whole := year{fine, func(p grid.LonLat, m int) (float64, bool) { return air(p, m), true }}
	coarse, err := regrid.Onto(whole, box(t, vale, 25, 70), nil)
	if err != nil {
		t.Fatal(err)
	}
	errors := map[bool]float64{}
	for _, with := range []bool{false, true} {
		relief := terrain
		if !with {
			relief = nil
		}
		back, err := regrid.Onto(coarse, fine, relief)
		if err != nil {
			t.Fatal(err)
		}
		var rows source.Rows
		if err := back.Read(0, 100, &rows); err != nil {
			t.Fatal(err)
		}
		for i := range rows.Has {
			p := fine.Center(grid.Cell{Row: i / 280, Col: i % 280})
			errors[with] += math.Abs(float64(rows.Vals[6][i])-air(p, 6)) / float64(len(rows.Has))
		}
	}
	if errors[true] > 0.25 || errors[true] > errors[false]/2 {
		t.Errorf("mean error %.3f K with terrain, %.3f without", errors[true], errors[false])
	}
}

// Rows come out the same whether they are read at once or a few at a time.
func TestBlocksDoNotShow(t *testing.T) {
	fine := box(t, vale, 53, 71)
	src := year{box(t, vale, 20, 28), func(p grid.LonLat, m int) (float64, bool) { return air(p, m), p.Lon < -86 }}
	n, err := regrid.Onto(src, fine, filled(fine, hill))
	if err != nil {
		t.Fatal(err)
	}
	var all, part source.Rows
	if err := n.Read(0, 53, &all); err != nil {
		t.Fatal(err)
	}
	for first := 0; first < 53; first += 4 {
		rows := min(4, 53-first)
		if err := n.Read(first, rows, &part); err != nil {
			t.Fatal(err)
		}
		for i, ok := range part.Has {
			k := first*71 + i
			if ok != all.Has[k] || ok && part.Vals[3][i] != all.Vals[3][k] {
				t.Fatalf("row %d, element %d: %v %v, at once %v %v", first, i, ok, part.Vals[3][i], all.Has[k], all.Vals[3][k])
			}
		}
	}
}

func TestSeaOfTheTerrainHasNoNormals(t *testing.T) {
	fine := box(t, vale, 20, 28)
	terrain := grid.NewRaster[float32](fine)
	terrain.Set(grid.Cell{Row: 3, Col: 4}, 10)
	src := year{box(t, vale, 20, 28), func(p grid.LonLat, m int) (float64, bool) { return 10, true }}
	n, err := regrid.Onto(src, fine, terrain)
	if err != nil {
		t.Fatal(err)
	}
	var rows source.Rows
	if err := n.Read(0, 20, &rows); err != nil {
		t.Fatal(err)
	}
	for i, ok := range rows.Has {
		if want := i == 3*28+4; ok != want {
			t.Errorf("element %d has normals: %v", i, ok)
		}
	}
}

func TestGridsMustOverlap(t *testing.T) {
	src := year{box(t, vale, 5, 7), func(p grid.LonLat, m int) (float64, bool) { return 10, true }}
	if _, err := regrid.Onto(src, box(t, grid.Box{West: 10, South: 10, East: 11, North: 11}, 3, 3), nil); err == nil {
		t.Error("no error")
	}
}

// On real normals: 10-minute cells made into 30-minute means and brought back
// with the 4 km terrain, compared with the 10-minute values.
func TestRealNormalsComeBack(t *testing.T) {
	normals, err := source.OpenNormals([]string{oracle.Data(t, "us/normals-10min.tif")}, source.NormalsOptions{})
	if err != nil {
		t.Fatal(err)
	}
	defer normals.Close()
	l, err := source.Open(oracle.Data(t, "us/elevation-4km.tif"), source.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	terrain := grid.NewRaster[float32](l.Grid())
	for row := range l.Grid().Rows() {
		vals, has := terrain.Row(row)
		if err := l.Read(0, row, 1, vals, has); err != nil {
			t.Fatal(err)
		}
	}
	g := normals.Grid()
	coarse, err := regrid.Onto(normals, box(t, g.Box(), g.Rows()/3, g.Cols()/3), nil)
	if err != nil {
		t.Fatal(err)
	}
	errors := func(terrain *grid.Raster[float32]) float64 {
		back, err := regrid.Onto(coarse, g, terrain)
		if err != nil {
			t.Fatal(err)
		}
		var got, want source.Rows
		sum, n := 0.0, 0.0
		for first := 0; first < g.Rows(); first += 30 {
			if err := back.Read(first, 30, &got); err != nil {
				t.Fatal(err)
			}
			if err := normals.Read(first, 30, &want); err != nil {
				t.Fatal(err)
			}
			for i := range got.Has {
				if got.Has[i] && want.Has[i] {
					sum += math.Abs(float64(got.Vals[3][i] - want.Vals[3][i]))
					n++
				}
			}
		}
		return sum / n
	}
	with, without := errors(terrain), errors(nil)
	t.Logf("April, mean error %.3f K with terrain, %.3f K without", with, without)
	if with > 0.3 || with > 0.7*without {
		t.Errorf("mean error %.3f K with terrain, %.3f K without", with, without)
	}
}

func BenchmarkOnto(b *testing.B) {
	fine := box(b, vale, 100, 280)
	src := year{box(b, vale, 25, 70), func(p grid.LonLat, m int) (float64, bool) { return air(p, m), true }}
	n, err := regrid.Onto(src, fine, filled(fine, hill))
	if err != nil {
		b.Fatal(err)
	}
	var rows source.Rows
	for b.Loop() {
		if err := n.Read(0, 100, &rows); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N*fine.Cells())/b.Elapsed().Seconds(), "cells/s")
}
