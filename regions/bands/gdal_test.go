package bands_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/oracle"
	"weekband/regions/arcs"
	"weekband/regions/bands"
	"weekband/regions/polygons"
)

// writeBands writes bands as the build does, with six decimals.
func writeBands(t *testing.T, set bands.Set) string {
	t.Helper()
	var out bytes.Buffer
	e := polygons.NewEncoder(&out)
	for _, b := range set.Bands {
		err := e.Write(polygons.Feature{
			Properties: []polygons.Property{{Key: "band", Value: b.Index}, {Key: "class", Value: b.Class}},
			Shape:      b.Shape,
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := e.Close(); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "bands.geojson")
	if err := os.WriteFile(path, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// Validity as GEOS sees it, through ogrinfo's SQLite dialect (GDAL 3.6.2).
func TestBandsAreValidToGEOS(t *testing.T) {
	oracle.Need(t, "ogrinfo")
	for seed := range int64(3) {
		f := waves(t, 90, 130, seed)
		set, err := bands.Trace(f, []float64{70, 77, 84, 91, 98, 105, 112, 119, 126, 133, 140}, bands.Options{})
		if err != nil {
			t.Fatal(err)
		}
		query := `SELECT COUNT(*) AS n, SUM(ST_IsValid(geometry)) AS valid, ROUND(SUM(ST_Area(geometry)), 4) AS area FROM bands`
		out, err := exec.Command("ogrinfo", "-q", "-dialect", "SQLite", "-sql", query, writeBands(t, set)).CombinedOutput()
		if err != nil || !strings.Contains(string(out), "valid") {
			t.Fatalf("ogrinfo without ST_IsValid: %v %s", err, out)
		}
		area, _ := extent(f)
		for _, want := range []string{
			fmt.Sprintf("n (Integer) = %d\n", len(set.Bands)),
			fmt.Sprintf("valid (Integer) = %d\n", len(set.Bands)),
			fmt.Sprintf("area (Real) = %.6g", area)[:20],
		} {
			if !strings.Contains(string(out), want) {
				t.Errorf("seed %d: want %q in\n%s", seed, want, out)
			}
		}
	}
}

// Areas against gdal_contour -p on a smooth field. GDAL contours between cell
// centres and holds the field constant outside them, so the outermost half
// cell differs a little.
func TestBandAreasAgreeWithGDAL(t *testing.T) {
	oracle.Need(t, "gdal_contour")
	oracle.Need(t, "ogrinfo")
	f := newField(t, 100, 140, func(row, col int) (float64, bool) {
		x, y := float64(col)/140, float64(row)/100
		return 100 + 25*math.Sin(5*x+1)*math.Cos(4*y) + 20*y, true
	})
	breaks := []float64{80, 90, 100, 110, 120, 130}
	set, err := bands.Trace(f, breaks, bands.Options{})
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	raster, polygons := filepath.Join(dir, "day.asc"), filepath.Join(dir, "contour.geojson")
	if err := os.WriteFile(raster, ascOf(f.Day), 0o600); err != nil {
		t.Fatal(err)
	}
	args := []string{"-q", "-p", "-amin", "low", "-f", "GeoJSON", "-fl"}
	for _, b := range breaks {
		args = append(args, fmt.Sprint(b))
	}
	if out, err := exec.Command("gdal_contour", append(args, raster, polygons)...).CombinedOutput(); err != nil {
		t.Fatalf("%v %s", err, out)
	}
	query := `SELECT low, SUM(ST_Area(geometry)) AS area FROM contour GROUP BY low ORDER BY low`
	out, err := exec.Command("ogrinfo", "-q", "-dialect", "SQLite", "-sql", query, polygons).CombinedOutput()
	if err != nil {
		t.Fatalf("%v %s", err, out)
	}
	var areas []float64
	for line := range strings.Lines(string(out)) {
		if _, value, ok := strings.Cut(line, "area (Real) = "); ok {
			var a float64
			fmt.Sscan(value, &a)
			areas = append(areas, a)
		}
	}
	if len(areas) != len(set.Bands) {
		t.Fatalf("%d bands, GDAL has %d\n%s", len(set.Bands), len(areas), out)
	}
	for i, b := range set.Bands {
		if got := arcs.Area(b.Shape); math.Abs(got-areas[i]) > 0.01*areas[i]+0.01 {
			t.Errorf("band %d: %.4f square degrees, GDAL %.4f", b.Index, got, areas[i])
		}
	}
}

// ascOf writes a raster without gaps as an Esri ASCII grid, which GDAL reads.
func ascOf(r *grid.Raster[float32]) []byte {
	var out bytes.Buffer
	g := r.Grid()
	fmt.Fprintf(&out, "ncols %d\nnrows %d\nxllcorner %v\nyllcorner %v\ndx %.15g\ndy %.15g\n",
		g.Cols(), g.Rows(), g.Box().West, g.Box().South, g.StepLon(), g.StepLat())
	for row := range g.Rows() {
		vals, _ := r.Row(row)
		for _, v := range vals {
			fmt.Fprintf(&out, "%v ", v)
		}
		out.WriteByte('\n')
	}
	return out.Bytes()
}
