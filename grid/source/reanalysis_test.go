package source

import (
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/oracle"
	"weekband/grid/units"
)

// classic converts NetCDF-4 by nccopy, of the NetCDF library (Unidata).
func classic(t testing.TB, kind, name string) string {
	t.Helper()
	in := oracle.Data(t, name)
	out := filepath.Join(t.TempDir(), "classic.nc")
	oracle.Run(t, nil, "nccopy", "-k", kind, in, out)
	return out
}

// TestRealReanalysis reads 12 months at 2.5 degrees with centres on 0, on 180
// and on the poles, and compares every value with ncdump's text.
func TestRealReanalysis(t *testing.T) {
	for _, kind := range []string{"classic", "64-bit offset", "cdf5"} {
		t.Run(kind, func(t *testing.T) {
			path := classic(t, kind, "formats/air-ltm-netcdf4.nc")
			n, err := OpenNormals([]string{path}, NormalsOptions{Variable: "air"})
			if err != nil {
				t.Fatal(err)
			}
			defer n.Close()
			want, err := grid.New(grid.Box{West: -178.75, East: 178.75, North: 88.75, South: -88.75}, 71, 143)
			if err != nil {
				t.Fatal(err)
			}
			if !n.Grid().Matches(want) {
				t.Fatalf("%v", n.Grid())
			}
			if s, why := n.Scale(); s != units.C || !strings.Contains(why, "degC") {
				t.Errorf("%v, %s", s, why)
			}
			if len(n.Notes()) != 2 {
				t.Errorf("notes %q", n.Notes())
			}
			dumped := dump(t, path, "air")
			if len(dumped) != 12*73*144 {
				t.Fatalf("%d values in the dump", len(dumped))
			}
			var r Rows
			for row := range 71 {
				if err := n.Read(row, 1, &r); err != nil {
					t.Fatal(err)
				}
				for m := range 12 {
					for col := range 143 {
						lon := -177.5 + 2.5*float64(col)
						fileCol := int(math.Mod(lon+360, 360) / 2.5)
						if want := dumped[(m*73+row+1)*144+fileCol]; r.Vals[m][col] != want || !r.Has[col] {
							t.Fatalf("month %d, row %d, column %d: %v, want %v", m+1, row, col, r.Vals[m][col], want)
						}
					}
				}
			}
			// January is colder than July at 45° N: the months are not shifted.
			if err := n.Read(17, 1, &r); err != nil {
				t.Fatal(err)
			}
			if r.Vals[0][36] >= r.Vals[6][36]-10 {
				t.Errorf("January %v, July %v", r.Vals[0][36], r.Vals[6][36])
			}
		})
	}
}

// dump returns a variable's values by ncdump.
func dump(t *testing.T, path, variable string) []float32 {
	t.Helper()
	out := oracle.Run(t, nil, "ncdump", "-p", "9,17", "-v", variable, path)
	_, text, _ := strings.Cut(string(out), "\n "+variable+" =")
	text, _, _ = strings.Cut(text, ";")
	var vals []float32
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' || r == '\n' }) {
		v, err := strconv.ParseFloat(word, 32)
		if err != nil {
			t.Fatalf("%q", word)
		}
		vals = append(vals, float32(v))
	}
	return vals
}

// TestRealGaussian reads 12 months of soil temperature on a Gaussian grid,
// whose sea is masked. Where an even latitude is one of the file's, the first
// and the last, the values are the file's own, by ncdump; between, they are
// what numbers interpolated here are.
func TestRealGaussian(t *testing.T) {
	path := classic(t, "classic", "formats/soil-ltm-gaussian-grid.nc")
	n, err := OpenNormals([]string{path}, NormalsOptions{Variable: "tmp"})
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	if s, why := n.Scale(); s != units.K || !strings.Contains(why, "degK") {
		t.Errorf("%v, %s", s, why)
	}
	if !strings.Contains(strings.Join(n.Notes(), "\n"), "Gaussian") {
		t.Errorf("notes %q", n.Notes())
	}
	values, lats := dump(t, path, "tmp"), dump(t, path, "lat")
	g := n.Grid()
	if g.Rows() != 94 || len(lats) != 94 || len(values) != 12*94*192 {
		t.Fatalf("%v, %d latitudes, %d values in the dump", g, len(lats), len(values))
	}
	missing := func(v float32) bool { return v < 0 }
	l := n.layers[0].from
	vals, has := make([]float32, g.Cols()), make([]bool, g.Cols())
	compared := 0
	for row := range 94 {
		lat := float64(lats[0]) + float64(lats[93]-lats[0])*float64(row)/93
		i := 0
		for i < 92 && float64(lats[i+1]) > lat {
			i++
		}
		share := (float64(lats[i]) - lat) / float64(lats[i]-lats[i+1])
		if math.Abs(share-0.5) < 1e-6 {
			t.Fatalf("row %d lies in the middle of two; which is nearer is a matter of rounding", row)
		}
		for m := range 12 {
			if err := l.Read(m, row, 1, vals, has); err != nil {
				t.Fatal(err)
			}
			for col := range g.Cols() {
				lon := g.Center(grid.Cell{Row: row, Col: col}).Lon
				fileCol := int(math.Round(math.Mod(lon+360, 360)/1.875)) % 192
				north, south := values[(m*94+i)*192+fileCol], values[(m*94+i+1)*192+fileCol]
				near, far := north, south
				if share > 0.5 {
					near, far = south, north
				}
				if has[col] == missing(near) {
					t.Fatalf("month %d, row %d, column %d has a value: %v; the nearest of the file is %v", m+1, row, col, has[col], near)
				}
				if missing(near) {
					continue
				}
				want := float64(near)
				if !missing(far) {
					want = (1-share)*float64(north) + share*float64(south)
				}
				compared++
				if math.Abs(float64(vals[col])-want) > 2e-3 {
					t.Fatalf("month %d, row %d, column %d: %v, want %v", m+1, row, col, vals[col], want)
				}
				if (row == 0 || row == 93) && vals[col] != near {
					t.Fatalf("month %d, row %d, column %d: %v, the file has %v there", m+1, row, col, vals[col], near)
				}
			}
		}
	}
	if compared < 100000 {
		t.Errorf("%d values were compared", compared)
	}
}
