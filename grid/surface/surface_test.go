package surface_test

import (
	"fmt"
	"math"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"weekband/grid"
	"weekband/grid/source"
	"weekband/grid/surface"
	"weekband/grid/units"
)

// vale is a box with a made-up terrain: a slope from the sea in the west up to
// 1,500 m, with valleys.
func vale(t testing.TB, rows, cols int) *grid.Raster[float32] {
	t.Helper()
	g, err := grid.New(grid.Box{West: -50, South: 36, East: -46, North: 38.5}, rows, cols)
	if err != nil {
		t.Fatal(err)
	}
	r := grid.NewRaster[float32](g)
	for row := range rows {
		for col := range cols {
			c := grid.Cell{Row: row, Col: col}
			p := g.Center(c)
			if p.Lon > -49.5 {
				r.Set(c, float32(200+400*(p.Lon+49.5)+150*math.Sin(9*p.Lat)*math.Sin(7*p.Lon)))
			}
		}
	}
	return r
}

// air is linear in position and height: the drift must return it exactly.
func air(p grid.LonLat, elevation float64, month int) units.Celsius {
	east := (p.Lon + 48) * math.Cos(37.25*math.Pi/180)
	return units.Celsius(float64(month) + 0.3*east - 0.8*(p.Lat-37) - 0.006*elevation)
}

// stations are places on the vale, one every so many cells.
func stations(t testing.TB, terrain *grid.Raster[float32], step int) *surface.Stations {
	t.Helper()
	s := &surface.Stations{}
	g := terrain.Grid()
	for row := step / 2; row < g.Rows(); row += step {
		for col := step / 2; col < g.Cols(); col += step {
			v, ok := terrain.At(grid.Cell{Row: row, Col: col})
			if !ok {
				continue
			}
			p := g.Center(grid.Cell{Row: row, Col: col})
			st := surface.Station{ID: fmt.Sprintf("S%d-%d", row, col), At: p, Elevation: float64(v)}
			for m := range st.Mean {
				st.Mean[m] = air(p, st.Elevation, m)
			}
			s.List = append(s.List, st)
		}
	}
	return s
}

// A plane in position and height comes back at every cell to a hundredth of a
// degree: east on a globe is not quite a straight line.
func TestPlaneComesBackOverAGrid(t *testing.T) {
	terrain := vale(t, 60, 80)
	land, err := surface.Survey(surface.Raster(terrain))
	if err != nil {
		t.Fatal(err)
	}
	model, report, err := surface.Fit(stations(t, terrain, 5), land, surface.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if report.All.MAE > 0.01 {
		t.Errorf("left out, stations are off by %.4f K", report.All.MAE)
	}
	s := model.Over(surface.Raster(terrain))
	var rows source.Rows
	if err := s.Read(0, 60, &rows); err != nil {
		t.Fatal(err)
	}
	for i, ok := range rows.Has {
		cell := grid.Cell{Row: i / 80, Col: i % 80}
		v, land := terrain.At(cell)
		if ok != land {
			t.Fatalf("%v has normals: %v, terrain: %v", cell, ok, land)
		}
		if !ok {
			continue
		}
		want := air(s.Grid().Center(cell), float64(v), 6)
		if math.Abs(float64(rows.Vals[6][i])-float64(want)) > 0.02 {
			t.Fatalf("%v: %v, want %v", cell, rows.Vals[6][i], want)
		}
	}
}

// Rows are the same however they are read.
func TestBlocksDoNotShow(t *testing.T) {
	terrain := vale(t, 60, 80)
	land, _ := surface.Survey(surface.Raster(terrain))
	model, _, err := surface.Fit(stations(t, terrain, 7), land, surface.Options{Covariance: fixed})
	if err != nil {
		t.Fatal(err)
	}
	var all source.Rows
	if err := model.Over(surface.Raster(terrain)).Read(0, 60, &all); err != nil {
		t.Fatal(err)
	}
	s := model.Over(surface.Raster(terrain))
	var wg sync.WaitGroup
	for first := 0; first < 60; first += 7 {
		wg.Go(func() {
			n := min(7, 60-first)
			var part source.Rows
			if err := s.Read(first, n, &part); err != nil {
				t.Error(err)
				return
			}
			for i, ok := range part.Has {
				if k := first*80 + i; ok != all.Has[k] || ok && part.Vals[2][i] != all.Vals[2][k] {
					t.Errorf("row %d, element %d differs", first, i)
					return
				}
			}
		})
	}
	wg.Wait()
}

// A station that contradicts all its neighbours is found, left out, and does
// not spoil the surface; one at an impossible height is listed.
func TestWrongStationsAreFound(t *testing.T) {
	terrain := vale(t, 60, 80)
	land, _ := surface.Survey(surface.Raster(terrain))
	s := stations(t, terrain, 5)
	noise := func(i int) units.Celsius { return units.Celsius(0.3 * math.Sin(float64(i*i))) }
	for i := range s.List {
		for m := range s.List[i].Mean {
			s.List[i].Mean[m] += noise(i + m)
		}
	}
	hot, high := 40, 90
	for m := range s.List[hot].Mean {
		s.List[hot].Mean[m] += 12 // a sign lost, or Fahrenheit taken for Celsius
	}
	s.List[high].Elevation += 2000
	_, report, err := surface.Fit(s, land, surface.Options{})
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]surface.Suspect{}
	for _, sus := range report.Suspects {
		found[sus.Station.ID] = sus
	}
	if sus, ok := found[s.List[hot].ID]; !ok || !sus.LeftOut || sus.Error > -9 {
		t.Errorf("the hot station: %+v", sus)
	}
	if sus, ok := found[s.List[high].ID]; !ok || sus.AboveTerrain < 1000 {
		t.Errorf("the high station: %+v", sus)
	}
	if _, keep, err := surface.Fit(s, land, surface.Options{KeepAll: true}); err != nil || keep.Used != len(s.List) {
		t.Errorf("keeping all used %d of %d stations (%v)", keep.Used, len(s.List), err)
	}
}

func TestTooFewStations(t *testing.T) {
	terrain := vale(t, 60, 80)
	land, _ := surface.Survey(surface.Raster(terrain))
	s := stations(t, terrain, 5)
	s.List = s.List[:3]
	if _, _, err := surface.Fit(s, land, surface.Options{}); err == nil || !strings.Contains(err.Error(), "at least 4") {
		t.Errorf("three stations: %v", err)
	}
	if _, _, err := surface.Fit(stations(t, terrain, 5), land, surface.Options{Quantity: surface.Deviations}); err == nil {
		t.Error("deviations that no station has: no error")
	}
}

// raced is true under the race detector, under which a national network takes
// minutes; the gate runs these tests without it.
var raced bool

func ExampleFit() {
	sites := "id,name,lat,lon,elev_m\nA,Lowen,40,-50,10\nB,Fennay,40,-49,10\nC,Hethay,41,-50,10\nD,Ternholm,41,-49,10\nE,Orra,40.5,-49.4,10\n"
	var values strings.Builder
	values.WriteString("id,month,tavg_c\n")
	for _, id := range []string{"A", "B", "C", "D", "E"} {
		for m := 1; m <= 12; m++ {
			fmt.Fprintf(&values, "%s,%d,%d\n", id, m, m)
		}
	}
	s, err := surface.Decode(surface.Text{Reader: strings.NewReader(sites), Name: "sites.csv"}, surface.Text{Reader: strings.NewReader(values.String()), Name: "values.csv"})
	if err != nil {
		fmt.Println(err)
		return
	}
	model, _, err := surface.Fit(s, nil, surface.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	est, _ := model.At(grid.LonLat{Lon: -49.5, Lat: 40.5}, 10)
	fmt.Printf("July %.1f °C\n", est[6])
	// Output: July 7.0 °C
}

// BenchmarkSurface lays the national model over the 4 km terrain, on all
// processors, nodes included.
func BenchmarkSurface(b *testing.B) {
	s, terrain, land := national(b)
	model, _, err := surface.Fit(s, land, surface.Options{Covariance: fixed})
	if err != nil {
		b.Fatal(err)
	}
	const block = 16
	var cells atomic.Int64
	for b.Loop() {
		over := model.Over(terrain)
		total := over.Grid().Rows()
		var next atomic.Int64
		var wg sync.WaitGroup
		for range runtime.GOMAXPROCS(0) {
			wg.Go(func() {
				var rows source.Rows
				for {
					first := int(next.Add(block)) - block
					if first >= total {
						return
					}
					if err := over.Read(first, min(block, total-first), &rows); err != nil {
						b.Error(err)
						return
					}
					for _, ok := range rows.Has {
						if ok {
							cells.Add(1)
						}
					}
				}
			})
		}
		wg.Wait()
	}
	b.ReportMetric(float64(cells.Load())/b.Elapsed().Seconds(), "cells/s")
}

// BenchmarkFit fits and checks the national stations.
func BenchmarkFit(b *testing.B) {
	s, _, land := national(b)
	for b.Loop() {
		if _, _, err := surface.Fit(s, land, surface.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
