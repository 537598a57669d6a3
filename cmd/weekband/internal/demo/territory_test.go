package demo

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io/fs"
	"strconv"
	"testing"

	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/source/frame"
	"weekband/grid/source/geotiff"
)

// territory is everything embedded, read plainly.
type territory struct {
	where   frame.Placement
	height  []float32
	land    []bool
	months  [12][]float32
	regions []region
	places  []place
	offsets *calibration.Model
}

type region struct {
	code, name string
	polygons   [][][][2]float64
}

type place struct {
	name, code, region, rank string
	at                       grid.LonLat
}

func load(t *testing.T) *territory {
	t.Helper()
	w := &territory{}
	elevation := open(t, "elevation.tif", 1)
	var err error
	if w.where, err = frame.Place(elevation.Frame()); err != nil {
		t.Fatal(err)
	}
	w.height, w.land = layer(t, elevation, 0)
	normals := open(t, "normals.tif", 12)
	if !normals.Frame().Near(elevation.Frame()) {
		t.Error("normals and elevation lie on different grids")
	}
	for m := range w.months {
		var has []bool
		w.months[m], has = layer(t, normals, m)
		for i := range has {
			if has[i] != w.land[i] {
				t.Fatalf("month %d and elevation differ on what is land at cell %d", m+1, i)
			}
		}
	}
	w.regions, w.places = readRegions(t), readPlaces(t)
	return w
}

func read(t *testing.T, name string) []byte {
	t.Helper()
	data, err := fs.ReadFile(Files(), name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func open(t *testing.T, name string, layers int) *geotiff.File {
	t.Helper()
	data := read(t, name)
	f, err := geotiff.Open(bytes.NewReader(data), int64(len(data)), name, geotiff.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if f.Count() != layers {
		t.Fatalf("%s has %d layers, want %d", name, f.Count(), layers)
	}
	return f
}

func layer(t *testing.T, f *geotiff.File, k int) ([]float32, []bool) {
	t.Helper()
	rows, cols := 120, 160
	vals, has := make([]float32, rows*cols), make([]bool, rows*cols)
	if err := f.Read(k, 0, rows, vals, has); err != nil {
		t.Fatal(err)
	}
	return vals, has
}

// calibrated reads the table of offsets.
func calibrated(t *testing.T) *calibration.Model {
	t.Helper()
	list, _, err := calibration.Decode(bytes.NewReader(read(t, "offsets.csv")), "offsets.csv")
	if err != nil {
		t.Fatal(err)
	}
	m, err := calibration.New("offsets.csv", list)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func readRegions(t *testing.T) (all []region) {
	t.Helper()
	var file struct {
		Type     string
		Features []struct {
			Properties struct{ Code, Name string }
			Geometry   struct {
				Type        string
				Coordinates [][][][2]float64
			}
		}
	}
	if err := json.Unmarshal(read(t, "regions.geojson"), &file); err != nil {
		t.Fatal(err)
	}
	for _, f := range file.Features {
		if f.Geometry.Type != "MultiPolygon" {
			t.Fatalf("%s is a %s", f.Properties.Name, f.Geometry.Type)
		}
		all = append(all, region{f.Properties.Code, f.Properties.Name, f.Geometry.Coordinates})
	}
	return all
}

func readPlaces(t *testing.T) (all []place) {
	t.Helper()
	lines, err := csv.NewReader(bytes.NewReader(read(t, "places.csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range lines[1:] {
		lat, errLat := strconv.ParseFloat(l[1], 64)
		lon, errLon := strconv.ParseFloat(l[2], 64)
		if errLat != nil || errLon != nil {
			t.Fatalf("places.csv: %q", l)
		}
		all = append(all, place{name: l[0], code: l[3], region: l[4], rank: l[5], at: grid.LonLat{Lon: lon, Lat: lat}})
	}
	return all
}

// contains counts by the even-odd rule over all rings.
func (r region) contains(p grid.LonLat) bool {
	in := false
	for _, polygon := range r.polygons {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				a, b := ring[i-1], ring[i]
				if (a[1] > p.Lat) != (b[1] > p.Lat) && p.Lon < a[0]+(p.Lat-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
					in = !in
				}
			}
		}
	}
	return in
}

// area is the signed area of a ring in square degrees, positive
// anticlockwise.
func area(ring [][2]float64) float64 {
	sum := 0.0
	for i := 1; i < len(ring); i++ {
		sum += (ring[i-1][0]-ring[0][0])*(ring[i][1]-ring[0][1]) - (ring[i][0]-ring[0][0])*(ring[i-1][1]-ring[0][1])
	}
	return sum / 2
}
