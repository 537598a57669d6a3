package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/grid/oracle"
)

func TestInspectTheDemosFiles(t *testing.T) {
	dir, _ := unpacked(t)
	for name, want := range map[string][]string{
		"normals.tif":     {"grid", "120 rows × 160 columns", "0.08° × 0.08°", "layers              12", "in unit C", "Nothing looks wrong"},
		"elevation.tif":   {"grid", "no: 1 layers", "Nothing looks wrong"},
		"regions.geojson": {"polygons", "regions             18", "name Skarrow"},
		"places.csv":      {"places", "places              89"},
	} {
		code, out, log := weekband(t, "inspect", filepath.Join(dir, name))
		for _, w := range want {
			if code != exitOK || !strings.Contains(out, w) {
				t.Errorf("%s: exit code %d, lacks %q\n%s%s", name, code, w, out, log)
			}
		}
	}
	code, out, _ := weekband(t, "inspect", "--json", filepath.Join(dir, "normals.tif"))
	var f finding
	if err := json.Unmarshal([]byte(out), &f); err != nil || code != exitOK {
		t.Fatalf("exit code %d, %v\n%s", code, err, out)
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
	oracle.Need(t, "nccopy")
	for name, want := range map[string]string{
		"us/normals-10min.tif":               "in unit C",
		"us/states-10m.json":                 "regions             56",
		"formats/soil-ltm-gaussian-grid.nc":  "in unit K",
		"formats/etopo20-netcdf-classic.cdf": "540 rows × 1080 columns",
		"formats/january-normal-4km.tif":     "596 rows × 1385 columns",
		"us/climate-divisions.geojson":       "regions",
	} {
		args := []string{"inspect", oracle.Data(t, name)}
		if strings.HasPrefix(name, "formats/soil") {
			args = append(args, "--variable", "tmp")
		}
		if strings.HasSuffix(name, "states-10m.json") {
			args = append(args, "--object", "states")
		}
		code, out, log := weekband(t, args...)
		if code != exitOK || !strings.Contains(out, want) {
			t.Errorf("%s: exit code %d, want %q\n%s%s", name, code, want, out, log)
		}
	}
}
