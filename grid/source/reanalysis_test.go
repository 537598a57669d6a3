package source

import (
	"errors"
	"fmt"
	"math"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/source/netcdf"
	"weekband/grid/units"
)

// classic converts NetCDF-4 by nccopy, of the NetCDF library (Unidata).
func classic(t testing.TB, kind, name string) string {
	t.Helper()
	in := sharedFile(t, name)
	if _, err := exec.LookPath("nccopy"); err != nil {
		t.Skip("nccopy is not installed")
	}
	out := filepath.Join(t.TempDir(), "classic.nc")
	if msg, err := exec.Command("nccopy", "-k", kind, in, out).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, msg)
	}
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
	out, err := exec.Command("ncdump", "-p", "9,17", "-v", variable, path).Output()
	if err != nil {
		t.Skipf("ncdump: %v", err)
	}
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

func TestRealGaussian(t *testing.T) {
	_, err := Open(classic(t, "classic", "formats/soil-ltm-gaussian-grid.nc"), Options{Variable: "tmp"})
	e, ok := errors.AsType[*netcdf.UnevenError](err)
	if !ok || len(e.Lats) != 94 || len(e.Lons) != 192 {
		t.Fatalf("%T %v", err, err)
	}
	if want := "lat is not even"; !strings.Contains(fmt.Sprint(err), want) {
		t.Errorf("%v, want %q", err, want)
	}
}
