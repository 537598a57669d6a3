package zonal_test

import (
	"math/rand"
	"reflect"
	"slices"
	"sync"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"weekband/grid"
	"weekband/regions"
	"weekband/regions/zonal"
)

// patches are regions over and beside a grid: fans of triangles, stars with
// holes, some of several parts, some off the grid.
func patches(r *rand.Rand, g grid.Grid) regions.Set {
	var set regions.Set
	add := func(shape orb.MultiPolygon) {
		set.Regions = append(set.Regions, regions.Region{Shape: shape, Bounds: regions.BoundsOf(shape)})
	}
	b := g.Box()
	for _, shape := range partition(r, b) {
		add(shape)
	}
	for x := range 5 { // side by side along meridians that part cells
		west := b.West + float64(x)*5*g.StepLon()
		add(orb.MultiPolygon{{rectangle(west, b.South, west+5*g.StepLon(), b.North)}})
	}
	for range 12 {
		lon, lat := b.West+r.Float64()*(b.East-b.West), b.South+r.Float64()*(b.North-b.South)
		w, h := (b.East-b.West)*r.Float64()/2, (b.North-b.South)*r.Float64()/2
		shape := orb.MultiPolygon{{star(lon, lat, w, h, 3+r.Intn(30), 0.5), hole(star(lon, lat, w/4, h/4, 5, 0.6))}}
		if r.Intn(3) == 0 {
			shape = append(shape, orb.Polygon{star(lon+2*w, lat+h, w/3, h/3, 4, 0.7)})
		}
		add(shape)
	}
	add(nil)
	return set
}

// Blocks of rows of any size, asked for in any order by several goroutines,
// hold the runs of the whole cover, to the last bit.
func TestSweepGivesTheRunsOfCover(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := rand.New(rand.NewSource(rapid.Int64().Draw(rt, "seed")))
		g := mustGrid(t, grid.Box{West: -100, South: 40, East: -86, North: 44.5}, 40+r.Intn(40), 25)
		set := patches(r, g)
		sweep := zonal.NewSweep(set, g)
		step := 1 + r.Intn(g.Rows()+5)
		blocks := make([][]zonal.Covered, (g.Rows()+step-1)/step)
		var wait sync.WaitGroup
		for _, i := range r.Perm(len(blocks)) {
			wait.Go(func() { blocks[i] = sweep.Rows(i*step, min(step, g.Rows()-i*step)) })
		}
		wait.Wait()
		got := make([][]zonal.Run, len(set.Regions))
		for _, covered := range blocks {
			for _, s := range covered {
				got[s.Region] = append(got[s.Region], s.Runs...)
			}
		}
		for i, region := range set.Regions {
			want := zonal.Cover(region.Shape, g)
			if !slices.Equal(got[i], want.Runs) || sweep.Outside(i) != want.Outside {
				rt.Fatalf("region %d in blocks of %d rows: %d runs, want %d", i, step, len(got[i]), len(want.Runs))
			}
		}
	})
}

// By hand: a strip of two rows in the middle of five.
func TestSweepRows(t *testing.T) {
	g := lopsided(t)
	set := regions.Set{Regions: []regions.Region{
		{Shape: orb.MultiPolygon{{rectangle(-98, 41, -96, 42.5)}}}, {Shape: orb.MultiPolygon{{rectangle(-90, 40, -86, 41.25)}}},
	}}
	sweep := zonal.NewSweep(set, g)
	want := []zonal.Covered{
		{Region: 0, Runs: []zonal.Run{{Row: 2, From: 1, To: 2, Share: 1}}},
		{Region: 1, Runs: []zonal.Run{{Row: 2, From: 5, To: 7, Share: 0.5}, {Row: 3, From: 5, To: 7, Share: 1}}},
	}
	if got := sweep.Rows(2, 2); !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if got := sweep.Rows(4, 1); len(got) != 1 || got[0].Region != 1 {
		t.Errorf("the last row: %v", got)
	}
	if got := sweep.Rows(2, 0); len(got) != 0 {
		t.Errorf("no rows: %v", got)
	}
}
