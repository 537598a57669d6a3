package surface_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/source"
	"weekband/grid/surface"
	"weekband/grid/units"
)

// fixed spares a test the fitting of a covariance.
var fixed = &surface.Covariance{Nugget: 0.33, Sill: 0.355, RangeKm: 87.8, KmPerMetre: 0.203}

// A handful of stations at about one height says nothing of the change with
// height: their noise must not become a lapse rate. Published monthly rates
// lie between 2.5 and 7.5 K/km (Minder, Mote & Lundquist 2010).
func TestFewStationsTakeTheUsualLapse(t *testing.T) {
	terrain := vale(t, 60, 80)
	land, err := surface.Survey(surface.Raster(terrain))
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(1, 2))
	s := &surface.Stations{}
	for i := range 7 {
		at := grid.LonLat{Lon: -49 + 0.4*float64(i), Lat: 36.5 + 0.3*float64(i*i%5)}
		st := surface.Station{ID: string(rune('A' + i)), At: at, Elevation: 300 + 8*float64(i%3)}
		for m := range st.Mean {
			st.Mean[m] = units.Celsius(10 + 0.5*rng.NormFloat64())
		}
		s.List = append(s.List, st)
	}
	model, report, err := surface.Fit(s, land, surface.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for m := range 12 {
		if lapse := model.Slope(m).PerKm; lapse > -2.5 || lapse < -7.5 {
			t.Errorf("month %d: %.1f K per km of height from seven stations in one valley", m+1, lapse)
		}
		est, _ := model.At(grid.LonLat{Lon: -47.5, Lat: 37}, 1300)
		if est[m] < 0 || est[m] > 9 {
			t.Errorf("month %d: %.1f °C at 1,300 m, 1,000 m above stations with 10 °C", m+1, est[m])
		}
	}
	if !report.Assumed || !strings.Contains(report.String(), "too few") {
		t.Errorf("the report does not say that the covariance was not fitted:\n%v", report)
	}
}

// Deviations have their own surface and errors; neither is ever negative.
func TestDeviations(t *testing.T) {
	terrain := vale(t, 30, 40)
	land, err := surface.Survey(surface.Raster(terrain))
	if err != nil {
		t.Fatal(err)
	}
	s := stations(t, terrain, 4)
	for i := range s.List {
		st := &s.List[i]
		st.HasSD = i%5 != 0 // the others have none
		for m := range st.SD {
			st.SD[m] = units.Delta(max(0, 0.2+0.3*math.Cos(float64(m)/2)+0.1*math.Sin(float64(7*i))))
		}
	}
	model, report, err := surface.Fit(s, land, surface.Options{Quantity: surface.Deviations, Covariance: fixed})
	if err != nil {
		t.Fatal(err)
	}
	if want := len(s.List) - (len(s.List)+4)/5; report.Used != want {
		t.Errorf("%d stations used, %d have deviations", report.Used, want)
	}
	over := model.Over(surface.Raster(terrain))
	var sd, se source.Rows
	if err := over.Read(0, 30, &sd); err != nil {
		t.Fatal(err)
	}
	if err := over.Uncertainty().Read(0, 30, &se); err != nil {
		t.Fatal(err)
	}
	for i, ok := range sd.Has {
		if se.Has[i] != ok {
			t.Fatalf("element %d has a deviation: %v, an error: %v", i, ok, se.Has[i])
		}
		for m := range sd.Vals {
			if ok && !(sd.Vals[m][i] >= 0 && sd.Vals[m][i] < 1 && se.Vals[m][i] > 0) {
				t.Fatalf("element %d, month %d: %v ± %v", i, m+1, sd.Vals[m][i], se.Vals[m][i])
			}
		}
	}
}

// Without land, heights of stations and cells mean nothing.
func TestWithoutLandHeightsMeanNothing(t *testing.T) {
	terrain := vale(t, 30, 40)
	s := stations(t, terrain, 4)
	first, _, err := surface.Fit(s, nil, surface.Options{Covariance: fixed})
	if err != nil {
		t.Fatal(err)
	}
	var before, after source.Rows
	if err := first.Over(surface.Level(terrain.Grid())).Read(3, 9, &before); err != nil {
		t.Fatal(err)
	}
	for i := range s.List {
		s.List[i].Elevation = 4000 - s.List[i].Elevation
	}
	second, _, err := surface.Fit(s, nil, surface.Options{Covariance: fixed})
	if err != nil {
		t.Fatal(err)
	}
	if err := second.Over(surface.Level(terrain.Grid())).Read(3, 9, &after); err != nil {
		t.Fatal(err)
	}
	for i, ok := range before.Has {
		if !ok || !after.Has[i] || before.Vals[4][i] != after.Vals[4][i] {
			t.Fatalf("element %d: %v and %v", i, before.Vals[4][i], after.Vals[4][i])
		}
	}
}

// A quarter of the national stations never seen by the fit, the slopes or the
// check of stations. Fewer stations are left, so errors are a little larger
// than with each left out alone.
func TestNationalQuarterHeldOut(t *testing.T) {
	s, _, land := national(t)
	kept := &surface.Stations{}
	var held []surface.Station
	for i, st := range s.List {
		if i%4 == 2 {
			held = append(held, st)
		} else {
			kept.List = append(kept.List, st)
		}
	}
	model, _, err := surface.Fit(kept, land, surface.Options{})
	if err != nil {
		t.Fatal(err)
	}
	abs, sum, n := 0.0, 0.0, 0.0
	for _, st := range held {
		est, _ := model.At(st.At, st.Elevation)
		for m := range est {
			e := est[m] - float64(st.Mean[m])
			abs += math.Abs(e)
			sum += e
			n++
		}
	}
	t.Logf("%d stations, mean absolute error %.4f K, bias %+.4f K", len(held), abs/n, sum/n)
	if abs/n > 0.54 || math.Abs(sum/n) > 0.03 {
		t.Errorf("mean absolute error %.3f K, bias %+.3f K; plain kriging of 60 neighbours with height has 0.55 K", abs/n, sum/n)
	}
}

// From cell to cell a surface steps as the answer of every cell does: where
// one node takes over from another there is no seam. Where the ground itself
// steps by more than 100 m, the two follow it with slightly different slopes.
func TestNoSeams(t *testing.T) {
	s, terrain, land := national(t)
	model, _, err := surface.Fit(s, land, surface.Options{Covariance: fixed})
	if err != nil {
		t.Fatal(err)
	}
	over := model.Over(terrain)
	g := over.Grid()
	var rows source.Rows
	height, has := make([]float32, g.Cols()), make([]bool, g.Cols())
	worst, steep, n := 0.0, 0.0, 0
	for row := 40; row < g.Rows(); row += 101 {
		if err := over.Read(row, 1, &rows); err != nil {
			t.Fatal(err)
		}
		if err := terrain.Read(0, row, 1, height, has); err != nil {
			t.Fatal(err)
		}
		for start := 150; start < g.Cols()-30; start += 170 {
			var before [12]float64
			for col := start; col < start+24; col++ { // three nodes at least
				est, _ := model.At(g.Center(grid.Cell{Row: row, Col: col}), float64(height[col]))
				for m := range est {
					apart := float64(rows.Vals[m][col]) - est[m]
					if col > start && has[col] && has[col-1] {
						step := math.Abs(apart - before[m])
						if math.Abs(float64(height[col]-height[col-1])) > 100 {
							steep = max(steep, step)
						} else {
							worst = max(worst, step)
						}
						n++
					}
					before[m] = apart
				}
			}
		}
	}
	t.Logf("%d steps, beside those of the cells themselves at most %.4f K, on steep ground %.4f K", n, worst, steep)
	if worst > 0.05 || steep > 0.1 || n < 5000 {
		t.Errorf("%d steps, beside those of the cells themselves at most %.4f K, on steep ground %.4f K; want under 0.05 and 0.1", n, worst, steep)
	}
}
