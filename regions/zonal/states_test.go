package zonal_test

import (
	"fmt"
	"math"
	"os"
	"runtime"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/oracle"
	"weekband/regions"
	"weekband/regions/polygons"
	"weekband/regions/zonal"
)

func us(t testing.TB, file, object string) regions.Set {
	t.Helper()
	f, err := os.Open(oracle.Data(t, "us/"+file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	set, err := polygons.Decode(f, file, polygons.Options{Object: object})
	if err != nil {
		t.Fatal(err)
	}
	return set
}

// The covered area of every state agrees with the area integral over its
// outline, which is computed another way.
func TestStatesKeepTheirArea(t *testing.T) {
	set := us(t, "states-10m.json", "states")
	g := mustGrid(t, grid.Box{West: -180, South: -20, East: 180, North: 75}, 95*12, 360*12)
	for i, c := range zonal.CoverAll(set, g) {
		want := regions.Area(set.Regions[i].Shape)
		if got := c.Area(); math.Abs(got-want) > 2e-5*want || c.Outside != 0 {
			t.Errorf("%s: %.2f km², outline %.2f, outside %v", set.Regions[i].Name, got, want, c.Outside)
		}
	}
}

// Total areas as the US Census Bureau publishes them (State Area
// Measurements; values from memory). The outlines are generalized to 1:10
// million; these three states have no shore.
func TestStateAreasAsPublished(t *testing.T) {
	set := us(t, "states-10m.json", "states")
	for id, want := range map[string]float64{"08": 269_601, "56": 253_335, "20": 213_100} {
		r, ok := set.ByID(id)
		if !ok {
			t.Fatalf("no state %s", id)
		}
		if got := regions.Area(r.Shape); math.Abs(got-want) > 3e-4*want {
			t.Errorf("%s: %.0f km², published %.0f", r.Name, got, want)
		}
	}
}

// Counties fill their states: no cell is covered more than once by them.
func TestCountiesCoverNoCellTwice(t *testing.T) {
	set := us(t, "counties-10m.json", "counties")
	g := mustGrid(t, grid.Box{West: -125, South: 24, East: -66, North: 50}, 596, 1385)
	began := time.Now()
	covers := zonal.CoverAll(set, g)
	t.Logf("%d counties on %d × %d cells in %v", len(covers), g.Rows(), g.Cols(), time.Since(began))
	sum := make([]float64, g.Cells())
	for _, c := range covers {
		for cell, share := range c.Cells() {
			sum[cell.Row*g.Cols()+cell.Col] += share
		}
	}
	over, whole := 0.0, 0
	for _, s := range sum {
		over += max(0, s-1-1e-9)
		if math.Abs(s-1) < 1e-9 {
			whole++
		}
	}
	// Thinning of the source left counties whose borders cross themselves. Each
	// of the pieces is ground, and some lie over a neighbour: 0.03 cells in all.
	if over > 0.05 || whole < 430_000 {
		t.Errorf("%v cells covered more than once, %d exactly once", over, whole)
	}
}

func TestCoverAllDoesNotDependOnWorkers(t *testing.T) {
	var set regions.Set
	for i := range 40 {
		shape := orb.MultiPolygon{{star(-99+float64(i)/3, 41.2, 1.5, 0.6, 5, 0.5)}}
		set.Regions = append(set.Regions, regions.Region{Shape: shape})
	}
	g := lopsided(t)
	var got []string
	for _, workers := range []int{1, 8} {
		before := runtime.GOMAXPROCS(workers)
		got = append(got, fmt.Sprint(zonal.CoverAll(set, g)))
		runtime.GOMAXPROCS(before)
	}
	if got[0] != got[1] {
		t.Error("one worker and eight disagree")
	}
}

func BenchmarkSummarizeCounties(b *testing.B) {
	set := us(b, "counties-10m.json", "counties")
	for _, size := range [][2]int{{596, 1385}, {3105, 7025}} {
		g := mustGrid(b, grid.Box{West: -125, South: 24, East: -66, North: 50}, size[0], size[1])
		day, reason := grid.NewRaster[float32](g), grid.NewRaster[crossing.Reason](g)
		for row := range g.Rows() {
			for col := range g.Cols() {
				day.Set(grid.Cell{Row: row, Col: col}, float32(60+row%90+col%7))
				reason.Set(grid.Cell{Row: row, Col: col}, crossing.Dated)
			}
		}
		covers := zonal.CoverAll(set, g)
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			for b.Loop() {
				for _, c := range covers {
					zonal.Summarize(c, day, reason)
				}
			}
			perCell(b, g.Cells(), len(covers))
		})
	}
}

func BenchmarkCoverCounties(b *testing.B) {
	set := us(b, "counties-10m.json", "counties")
	for _, size := range [][2]int{{596, 1385}, {3105, 7025}} {
		g := mustGrid(b, grid.Box{West: -125, South: 24, East: -66, North: 50}, size[0], size[1])
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			for b.Loop() {
				zonal.CoverAll(set, g)
			}
			perCell(b, g.Cells(), len(set.Regions))
		})
	}
}
