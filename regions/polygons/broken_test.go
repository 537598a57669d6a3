package polygons_test

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid/oracle"
	"weekband/regions"
	"weekband/regions/arcs"
	"weekband/regions/internal/planar"
	"weekband/regions/polygons"
)

// Every broken file gets the words it deserves, or is repaired, to the area
// that was worked out by hand, with a warning.
func TestBrokenFiles(t *testing.T) {
	tried := map[string]bool{}
	for _, c := range brokenFiles {
		t.Run(c.file, func(t *testing.T) {
			tried[c.file] = true
			set, err := decodeBroken(t, c.file)
			if c.refused != "" {
				if err == nil || !strings.HasPrefix(err.Error(), c.file+":") || !strings.Contains(err.Error(), c.refused) {
					t.Errorf("got %v\nwant %q", err, c.refused)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			c.check(t, set)
		})
	}
	files, err := os.ReadDir("testdata/broken")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !tried[f.Name()] {
			t.Errorf("testdata/broken/%s is not tried", f.Name())
		}
	}
}

func decodeBroken(t *testing.T, file string) (regions.Set, error) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata/broken", file))
	if err != nil {
		t.Fatal(err)
	}
	o := polygons.Options{}
	if strings.HasPrefix(file, "id-") || strings.HasPrefix(file, "key-") {
		o.ID = "code"
	}
	return polygons.Decode(bytes.NewReader(data), file, o)
}

func (c broken) check(t *testing.T, set regions.Set) {
	t.Helper()
	if len(set.Warnings) != len(c.warnings) {
		t.Errorf("warnings %q, want %q", set.Warnings, c.warnings)
	}
	for i, want := range c.warnings {
		if i < len(set.Warnings) && (!strings.Contains(set.Warnings[i], want) || !strings.HasPrefix(set.Warnings[i], c.file+":")) {
			t.Errorf("warning %q, want %q", set.Warnings[i], want)
		}
	}
	if want := max(c.regions, 1); len(set.Regions) != want {
		t.Errorf("%d regions, want %d", len(set.Regions), want)
	}
	want := c.area
	if want == 0 {
		want = 4
	}
	if got := groundOf(t, set); math.Abs(got-want) > 1e-8 {
		t.Errorf("%v squared degrees, want %v", got, want)
	}
}

// groundOf returns the area of all regions in squared degrees, and fails the
// test where lines of a region meet other than in corners.
func groundOf(t *testing.T, set regions.Set) float64 {
	t.Helper()
	area := 0.0
	for _, r := range set.Regions {
		var lines []orb.LineString
		for _, p := range r.Shape {
			for _, ring := range p {
				lines = append(lines, orb.LineString(ring))
			}
		}
		if err := planar.Check(planar.SegmentsOf(lines)); err != nil {
			t.Errorf("region %s: %v", r.ID, err)
		}
		area += arcs.Area(r.Shape)
	}
	return area
}

// Names survive every encoding.
func TestBrokenFilesKeepNames(t *testing.T) {
	for _, file := range []string{"utf-16-little.geojson", "utf-16-big.geojson", "utf-16-unmarked.geojson", "latin-1.geojson"} {
		if set, err := decodeBroken(t, file); err != nil || set.Regions[0].Name != "Sôlenne" {
			t.Errorf("%s: %v, %+v", file, err, set.Regions)
		}
	}
	if set, err := decodeBroken(t, "control-characters.geojson"); err != nil || set.Regions[0].Name != "Ash [31mholt" {
		t.Errorf("%v, %+v", err, set.Regions)
	}
	set, err := decodeBroken(t, "id-number.geojson")
	if err != nil || set.Regions[0].ID != "9007199254740993" || set.Regions[1].ID != "9007199254740992" || set.Regions[2].ID != "7" {
		t.Errorf("%v, %+v", err, set.Regions)
	}
}

// GDAL's make-valid (GEOS, by lines) leaves the same ground of polygons that
// cross or touch themselves.
func TestMendedGroundAsGDAL(t *testing.T) {
	oracle.Need(t, "ogr2ogr")
	for _, c := range brokenFiles {
		if !c.valid {
			continue
		}
		ours, err := decodeBroken(t, c.file)
		if err != nil {
			t.Fatal(err)
		}
		text := oracle.Run(t, nil, "ogr2ogr", "-f", "GeoJSON", "-makevalid", "-lco", "COORDINATE_PRECISION=15", "/vsistdout/", filepath.Join("testdata/broken", c.file))
		theirs, err := polygons.Decode(bytes.NewReader(text), "ogr2ogr", polygons.Options{})
		if err != nil {
			t.Fatalf("%s: %v", c.file, err)
		}
		if got, want := groundOf(t, ours), groundOf(t, theirs); math.Abs(got-want) > 1e-8 {
			t.Errorf("%s: %v squared degrees, GDAL has %v", c.file, got, want)
		}
	}
}

// Lists within lists without end are refused, not followed.
func TestDeepNesting(t *testing.T) {
	for _, deep := range []string{
		strings.Repeat("[", 1_000_000),
		`{"type":"Polygon","coordinates":` + strings.Repeat("[", 1_000_000),
		`{"type":"Polygon","coordinates":` + strings.Repeat("[", 20_000) + strings.Repeat("]", 20_000) + "}",
		strings.Repeat(`{"type":"GeometryCollection","geometries":[`, 20_000) + strings.Repeat("]}", 20_000),
	} {
		_, err := polygons.Decode(strings.NewReader(deep), "deep.geojson", polygons.Options{})
		if err == nil || !strings.Contains(err.Error(), "ten thousand deep") {
			t.Errorf("got %v", err)
		}
	}
}

// A small file that unpacks to 24 MB of blanks is refused before that
// fills memory.
func TestPackedTrap(t *testing.T) {
	var packed bytes.Buffer
	zip := gzip.NewWriter(&packed)
	blanks := bytes.Repeat([]byte(" "), 1<<20)
	for range 24 {
		if _, err := zip.Write(blanks); err != nil {
			t.Fatal(err)
		}
	}
	if err := zip.Close(); err != nil {
		t.Fatal(err)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := polygons.Decode(&packed, "trap.geojson.gz", polygons.Options{})
	runtime.ReadMemStats(&after)
	if err == nil || !strings.Contains(err.Error(), "KB of gzip unpack to 16 MB, more than 200 times as much") {
		t.Errorf("got %v", err)
	}
	if taken := (after.TotalAlloc - before.TotalAlloc) >> 20; taken > 100 {
		t.Errorf("%d MiB were allocated", taken)
	}
}

// Ten thousand findings of one kind are one line with their number.
func TestWarningsAreCounted(t *testing.T) {
	var features []string
	for i := range 10_000 {
		west := float64(i%100) * 0.1
		south := float64(i/100) * 0.1
		features = append(features, polygon(fmt.Sprintf(`{"name":"Plot %d"}`, i+1),
			fmt.Sprintf(`[[[%g,%g],[%g,%g],[%g,%g],[%g,%g]]]`, west, south, west, south+0.1, west+0.1, south+0.1, west+0.1, south)))
	}
	set := decode(t, collection(features...), polygons.Options{})
	if len(set.Regions) != 10_000 || len(set.Warnings) != 2 || !strings.Contains(set.Warnings[0], "10000 × rings were not closed") || !strings.Contains(set.Warnings[1], "10000 × rings ran the wrong way round") {
		t.Errorf("%d regions, warnings %q", len(set.Regions), set.Warnings)
	}
}
