package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/inspect"
	"weekband/grid/oracle"
)

func TestInspectTheDemosFiles(t *testing.T) {
	dir, _ := unpacked(t)
	for name, want := range map[string][]string{
		"normals.tif":     {"grid", "120 rows × 160 columns", "0.08° × 0.08°", "layers               12", "in unit C", "unit as written      degC", "missing as written   -9999", "January", "Nothing looks wrong"},
		"elevation.tif":   {"grid", "no: one layer", "Nothing looks wrong"},
		"regions.geojson": {"polygons", "regions              18", "name Skarrow", "property name        18 different"},
		"places.csv":      {"places", "places               89"},
	} {
		code, out, log := weekband(t, "inspect", filepath.Join(dir, name))
		for _, w := range want {
			if code != exitOK || !strings.Contains(out, w) {
				t.Errorf("%s: exit code %d, lacks %q\n%s%s", name, code, w, out, log)
			}
		}
	}
	code, out, _ := weekband(t, "inspect", "--json", filepath.Join(dir, "normals.tif"))
	var f inspect.Finding
	if err := json.Unmarshal([]byte(out), &f); err != nil || code != exitOK {
		t.Fatalf("exit code %d, %v\n%s", code, err, out)
	}
	if f.Notes == nil || f.Suspicions == nil || !strings.Contains(out, `"min":`) {
		t.Errorf("%s", out)
	}
	if len(f.Layers) != 12 || f.Kind != "grid" || f.Layers[6].Mean < f.Layers[0].Mean {
		t.Errorf("%+v", f)
	}
}

func TestInspectSeesWhatIsWrong(t *testing.T) {
	dir := t.TempDir()
	header := "ncols 4\nnrows 3\nxllcorner -90\nyllcorner 35\ncellsize 3\n"
	var files []string
	for m := range 12 {
		// Summer in January, and -9998 in the sea although nothing says so.
		value := []string{"30", "28", "22", "15", "9", "4", "2", "4", "9", "15", "22", "28"}[m]
		text := header + strings.Repeat(strings.Repeat(value+" ", 3)+"-9998\n", 3)
		name := filepath.Join(dir, "tavg-"+[]string{"01", "02", "03", "04", "05", "06", "07", "08", "09", "10", "11", "12"}[m]+".asc")
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		files = append(files, name)
	}
	code, out, log := weekband(t, append([]string{"inspect"}, files...)...)
	for _, want := range []string{"stands for missing cells", "begin with January"} {
		if code != exitOK || !strings.Contains(out, want) {
			t.Errorf("exit code %d, lacks %q\n%s%s", code, want, out, log)
		}
	}
	if code, _, log := weekband(t, "inspect", filepath.Join(dir, "none.tif")); code != exitData || !strings.Contains(log, "none.tif") {
		t.Errorf("a file that is not there: exit code %d\n%s", code, log)
	}
}

func TestInspectRealFiles(t *testing.T) {
	unraced(t)
	oracle.Need(t, "nccopy")
	for name, want := range map[string]string{
		"us/normals-10min.tif":               "in unit C",
		"us/states-10m.json":                 "regions              56",
		"formats/soil-ltm-gaussian-grid.nc":  "in unit K",
		"formats/etopo20-netcdf-classic.cdf": "540 rows × 1080 columns",
		"formats/january-normal-4km.tif":     "596 rows × 1385 columns",
		"us/climate-divisions.geojson":       "property division    10 different",
		"us/counties-10m.json":               "object counties      3231 geometries",
		"us/elevation-4km.tif":               "-32768",
		"us/zip-centroids.csv":               "",
		"us/soil-daily.csv.gz":               "",
	} {
		args := []string{"inspect", oracle.Data(t, name)}
		if strings.HasPrefix(name, "formats/soil") {
			args = append(args, "--variable", "tmp")
		}
		if strings.HasSuffix(name, "states-10m.json") {
			args = append(args, "--object", "states")
		}
		code, out, log := weekband(t, args...)
		if want == "" { // no data set: words
			if code != exitData || !strings.Contains(log, filepath.Base(name)) {
				t.Errorf("%s: exit code %d\n%s%s", name, code, out, log)
			}
			continue
		}
		if code != exitOK || !strings.Contains(out, want) || strings.Contains(out, "look at this") && !strings.HasPrefix(name, "formats/soil") {
			t.Errorf("%s: exit code %d, want %q\n%s%s", name, code, want, out, log)
		}
	}
}

// Twelve files are put in the order of their months, whatever the order of
// their names; JSON and text tell the same.
func TestInspectTwelveFiles(t *testing.T) {
	dir := t.TempDir()
	args := []string{"inspect"}
	for m, name := range []string{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"} {
		text := "ncols 2\nnrows 2\nxllcorner -90\nyllcorner 35\ncellsize 3\n"
		value := []int{1, 3, 8, 13, 18, 23, 26, 25, 21, 15, 9, 3}[m]
		text += fmt.Sprintf("%d.5 %d.5\n%d.5 %d.5\n", value, value, value+1, value+2)
		path := filepath.Join(dir, name+".asc")
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		args = append(args, path)
	}
	slices.Sort(args[1:])
	code, out, log := weekband(t, args...)
	for _, want := range []string{"12 files, from ", "      1        1.5", "jan.asc", "as normals           12 layers in unit C: values 1.5 to 28.5 look like degrees Celsius", "Nothing looks wrong"} {
		if code != exitOK || !strings.Contains(out, want) {
			t.Errorf("exit code %d, lacks %q\n%s%s", code, want, out, log)
		}
	}
	code, out, log = weekband(t, args[:8]...)
	if code != exitOK || !strings.Contains(out, "7 files with 7 layers") {
		t.Errorf("exit code %d\n%s%s", code, out, log)
	}
}

// What has to be converted is told as the user's own file, once.
func TestInspectConverts(t *testing.T) {
	oracle.Need(t, "nccopy", "ncgen", "ogr2ogr")
	dir, _ := unpacked(t)
	path := daily(t, dir, 366)
	code, out, log := weekband(t, "inspect", path)
	note := "daily-366.nc was converted NetCDF-4 to NetCDF classic by nccopy"
	if code != exitOK || strings.Count(out, note) != 1 || !strings.Contains(out, "and 354 more") || strings.Contains(out, "weekband-convert") {
		t.Errorf("exit code %d\n%s%s", code, out, log)
	}
	shapes := filepath.Join(dir, "shapes.shp")
	oracle.Run(t, nil, "ogr2ogr", "-f", "ESRI Shapefile", shapes, filepath.Join(dir, "regions.geojson"))
	code, out, log = weekband(t, "inspect", shapes)
	for _, want := range []string{"regions              18", "property name        18 different", "shapes.shp was converted to GeoJSON by ogr2ogr", "counted from 1"} {
		if code != exitOK || !strings.Contains(out, want) {
			t.Errorf("exit code %d, lacks %q\n%s%s", code, want, out, log)
		}
	}
}

func TestInspectRefusesWithWords(t *testing.T) {
	dir, _ := unpacked(t)
	file := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	for _, c := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{file("empty.tif", "")}, exitData, "empty.tif: the file is empty"},
		{[]string{file("broken.geojson", `{"type": "FeatureCollection", "features": [`)}, exitData, "broken.geojson"},
		{[]string{file("other.csv", "a,b\n1,2\n")}, exitData, "columns name, lat and lon"},
		{[]string{file("swapped.csv", "name,lat,lon\nX,-94,40\n")}, exitData, "swapped.csv"},
		{[]string{dir}, exitData, "is a directory"},
		{[]string{filepath.Join(dir, "places.csv"), filepath.Join(dir, "normals.tif")}, exitUsage, "one by one"},
		{[]string{filepath.Join(dir, "regions.geojson"), filepath.Join(dir, "normals.tif")}, exitUsage, "one by one"},
		{nil, exitUsage, "file"},
	} {
		code, out, log := weekband(t, append([]string{"inspect"}, c.args...)...)
		if code != c.code || !strings.Contains(log, c.want) {
			t.Errorf("%q: exit code %d, want %d and %q\n%s%s", c.args, code, c.code, c.want, out, log)
		}
	}
	code, out, _ := weekband(t, "inspect", file("nowhere.csv", "name,lat,lon\nX,0,0\nY,40,-50\n"))
	if code != exitOK || !strings.Contains(out, "1 of the places lie at 0° N 0° E") {
		t.Errorf("exit code %d\n%s", code, out)
	}
}
