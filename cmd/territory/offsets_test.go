package main

import (
	"bytes"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"

	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/series"
	"weekband/grid/soil"
	"weekband/grid/source/geotiff"
	"weekband/grid/units"
)

// The embedded table is to the byte what the command writes.
func TestOffsetsAreWhatCalibrateWrites(t *testing.T) {
	if testing.Short() || raced || runtime.GOARCH != "amd64" {
		t.Skip("builds the program; other machines round the last digit otherwise")
	}
	out := filepath.Join(t.TempDir(), "offsets.csv")
	cmd := exec.Command("go", "run", "weekband/cmd/weekband", "calibrate",
		filepath.Join(published, sitesName), filepath.Join(published, valuesName), "--out", out, "--source", credit)
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	got, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	if want := readPublished(t, "offsets.csv"); !bytes.Equal(got, want) {
		t.Errorf("the command writes\n%s\nembedded is\n%s", got, want)
	}
}

func readPublished(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(published, name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func publishedTruths(t *testing.T) []calibration.Truth {
	t.Helper()
	learned, err := learn(readPublished(t, sitesName), readPublished(t, valuesName))
	if err != nil {
		t.Fatal(err)
	}
	return learned
}

func modelOf(t *testing.T, learned []calibration.Truth) *calibration.Model {
	t.Helper()
	m, err := calibration.New("offsets.csv", calibration.Table(learned))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Stations left out are foretold within the errors the model states: two
// thirds within one and nearly all within two of them; and better than by one offset.
func TestStationsForetellEachOther(t *testing.T) {
	learned := publishedTruths(t)
	m := modelOf(t, learned)
	if c := m.Covariance; c.RangeKm < 150 || c.RangeKm > 1500 || c.Nugget < 0.1 || c.Nugget > 2 {
		t.Errorf("covariance %v; want some hundred kilometres, and a nugget", c)
	}
	mae := map[calibration.Method]float64{}
	triggers := []crossing.Trigger{{Level: units.F.Celsius(55)}}
	for _, s := range calibration.Judge(m, learned, []units.Metres{shallowDepth, deepDepth}, triggers) {
		if s.Depth != deepDepth {
			continue
		}
		t.Logf("%v: %d stations, mean absolute error %.1f days, bias %+.1f, within %.2f", s.Method, s.N, s.MAE, s.Bias, s.Within)
		mae[s.Method] = s.MAE
		if s.Method == calibration.LeftOut && (s.Within[0] < 0.5 || s.Within[1] < 0.9 || s.MAE < 3 || s.MAE > 6) {
			t.Errorf("left out: %+v", s)
		}
	}
	if mae[calibration.LeftOut] > 0.9*mae[calibration.OneOffset] {
		t.Errorf("errors of %.1f days from the other stations, %.1f from one offset", mae[calibration.LeftOut], mae[calibration.OneOffset])
	}
}

// The truth is found again: at the stations from their five years, to what
// one winter's frost and a quirk leave; and at a thousand new sites from the
// stations, within the errors the model states.
func TestTrueOffsetIsRecovered(t *testing.T) {
	if testing.Short() || raced {
		t.Skip("forms the land")
	}
	l := formed()
	c := climateOf(l)
	learned := publishedTruths(t)
	m := modelOf(t, learned)
	height := publishedHeight(t)
	stations := network(l, c, newWeather(), func(p grid.LonLat) bool { return dry(height, p) })
	square, n := 0.0, 0.0
	for i, st := range stations {
		if learned[i].ID != st.id || learned[i].At != st.at {
			t.Fatalf("station %d is %s at %v, published %s at %v", i, st.id, st.at, learned[i].ID, learned[i].At)
		}
		for _, d := range springDays {
			e := at(learned[i].Offset, d) - at(st.offset, d)
			square += e * e
			n++
		}
	}
	if rms := math.Sqrt(square / n); rms > 0.35 || rms < 0.05 {
		t.Errorf("offsets of stations are learned to %.2f K in spring, want 0.2 to 0.3", rms)
	} else {
		t.Logf("offsets of stations are learned to %.2f K in spring", rms)
	}
	holds(t, l, c, m)
}

// publishedHeight reads the embedded elevation.
func publishedHeight(t *testing.T) *grid.Raster[float32] {
	t.Helper()
	data := readPublished(t, "elevation.tif")
	f, err := geotiff.Open(bytes.NewReader(data), int64(len(data)), "elevation.tif", geotiff.Options{})
	if err != nil {
		t.Fatal(err)
	}
	r := grid.NewRaster[float32](mesh(1))
	vals, has := make([]float32, r.Grid().Cells()), make([]bool, r.Grid().Cells())
	if err := f.Read(0, 0, cellRows, vals, has); err != nil {
		t.Fatal(err)
	}
	for i, ok := range has {
		if ok {
			r.Set(grid.Cell{Row: i / cellCols, Col: i % cellCols}, vals[i])
		}
	}
	return r
}

var springDays = []season.Day{60, 80, 100, 120, 140}

// holds checks the errors a model states at new sites all over the land.
func holds(t *testing.T, l *land, c climate, m *calibration.Model) {
	t.Helper()
	chance := rand.New(rand.NewPCG(3, 33))
	var one, two, n, sum float64
	for i := 0; i < len(l.height.v); i += 97 {
		if l.isSea(i) {
			continue
		}
		s := c.site(center(l.height.g, i), l.height.v[i])
		truth := groundAt(planOf(s.at), s.coldest(), 1, chance)
		o, trust := m.At(s.at, s.coldest())
		for _, d := range springDays {
			e := at(o, d) - at(truth.offset, d)
			z := math.Abs(e) / float64(m.StdErr(trust, d))
			if z < 1 {
				one++
			}
			if z < 2 {
				two++
			}
			n++
			sum += e
		}
	}
	t.Logf("%.0f sites: %.0f %% within one standard error, %.0f %% within two; %+.2f K on average", n/5, 100*one/n, 100*two/n, sum/n)
	if one/n < 0.58 || one/n > 0.85 || two/n < 0.9 {
		t.Errorf("of new sites %.2f lie within one standard error and %.2f within two; want 0.68 and 0.95", one/n, two/n)
	}
	if math.Abs(sum/n) > 0.3 {
		t.Errorf("new sites are foretold %+.2f K too warm on average", sum/n)
	}
}

// at returns an offset at 0:00 of a day, by the formula of soil.Offset.
func at(o soil.Offset, d season.Day) float64 {
	x := 2 * math.Pi * float64(d-1) / season.YearDays
	return o.Mean + o.Cos1*math.Cos(x) + o.Sin1*math.Sin(x) + o.Cos2*math.Cos(2*x) + o.Sin2*math.Sin(2*x)
}

// Every station passes the check without a finding but frost, and none is
// named like a town.
func TestStationsAreSound(t *testing.T) {
	n := publishedNetwork(t)
	towns := string(readPublished(t, "places.csv"))
	for i, r := range n.Clean(series.Rules{}) {
		for _, f := range r.Findings {
			if f.Kind != series.Plateau {
				t.Errorf("%s: %s", r.ID, r.Text(f))
			}
		}
		if st := n.List[i]; bytes.Contains([]byte(towns), []byte("\n"+st.Name+",")) {
			t.Errorf("%s is a town too", st.Name)
		}
	}
	if len(n.List) < 20 {
		t.Errorf("%d stations; fewer than 20 take the covariance of the table us", len(n.List))
	}
}
