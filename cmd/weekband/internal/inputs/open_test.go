package inputs_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/skerry"
	"weekband/grid"
	"weekband/grid/source"
	"weekband/grid/source/geotiff"
)

// deviations are twelve grids of the island, 1.5 K everywhere.
func deviations() map[string]string {
	files := map[string]string{}
	for month := range 12 {
		files[fmt.Sprintf("sd-%02d.asc", month+1)] = "ncols 12\nnrows 2\nxllcorner -47.6\nyllcorner 38\ncellsize 0.1\n" + strings.Repeat(strings.Repeat("1.5 ", 12)+"\n", 2)
	}
	return files
}

// Standard deviations lie on the grid of the normals, also when that is another than
// their own, and are among the files.
func TestDeviationsFollowTheGrid(t *testing.T) {
	path := island(t, deviations())
	change(t, path, "files: [tavg-*.asc]", "files: [tavg-*.asc], unit: C, sd: [sd-*.asc]")
	for _, lines := range []string{"", "grid: {cell: 0.05 deg}\n"} {
		change(t, path, "soil:", lines+"soil:")
		_, in, err := opened(t, path)
		if err != nil {
			t.Fatal(err)
		}
		g := in.Normals.Grid()
		if in.SD == nil || !in.SD.Grid().Matches(g) {
			t.Fatalf("%q: deviations on another grid than %v", lines, g)
		}
		var rows source.Rows
		if err := in.SD.Read(0, g.Rows(), &rows); err != nil || len(rows.Vals) != 12 || slices.Min(rows.Vals[6]) != 1.5 || slices.Max(rows.Vals[6]) != 1.5 {
			t.Errorf("%q: %v, %v", lines, rows.Vals, err)
		}
		if !slices.Contains(in.Files, inputs.File{Role: "sd", Name: "sd-12.asc"}) {
			t.Errorf("%q: %v", lines, in.Files)
		}
	}
}

// change replaces a text in a file.
func change(t *testing.T, path, from, to string) {
	t.Helper()
	if err := skerry.Change(path, from, to); err != nil {
		t.Fatal(err)
	}
}

// twoLayers is a GeoTIFF of two layers of the island's cells.
func twoLayers(t *testing.T) string {
	t.Helper()
	g, err := grid.New(grid.Box{West: -47.6, South: 38, East: -46.4, North: 38.2}, 2, 12)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	rows := func(_, _, _ int, _ []float32, has []bool) error {
		for i := range has {
			has[i] = true
		}
		return nil
	}
	if err := geotiff.Encode(&b, g, 2, rows, geotiff.WriteOptions{}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// What is wrong with a file is told with the key of the recipe and the file.
func TestWhatIsWrongWithFiles(t *testing.T) {
	for name, c := range map[string]struct {
		files    map[string]string
		from, to string
		want     []string
	}{
		"one id in two files":     {nil, "regions: [{", "regions: [{file: halves.geojson, id: code, name: name}, {", []string{"regions: ", `halves.geojson: region "West Skerry" has the id "W", which "West Skerry" of an earlier file has too; every region needs its own`}},
		"a pattern":               {nil, "tavg-*.asc", `"tavg-[.asc"`, []string{"normals: pattern", "want * and ? only, and [ in pairs"}},
		"no file matches":         {nil, "tavg-*.asc", `"t-*.asc", "u-*.asc"`, []string{"normals: no file matches", "t-*.asc; names are relative to the folder of the recipe", "u-*.asc; names"}},
		"deviations of one month": {map[string]string{"sd-01.asc": deviations()["sd-01.asc"]}, "files: [tavg-*.asc]", "files: [tavg-*.asc], unit: C, sd: [sd-*.asc]", []string{"normals: standard deviations: ", "sd-01.asc: 1 layers; want 12 months"}},
		"a terrain of layers":     {map[string]string{"two.tif": twoLayers(t)}, "maps:", "terrain: two.tif\nmaps:", []string{"terrain: ", "two.tif: 2 layers; want one, of elevations in m"}},
		"several at once":         {map[string]string{"places.csv": "name\nHaven\n"}, "halves.geojson", "quarters.geojson", []string{"regions: ", "quarters.geojson: file does not exist; names are relative", "places: ", "places.csv:1"}},
	} {
		path := island(t, c.files)
		change(t, path, c.from, c.to)
		_, _, err := opened(t, path)
		if err == nil {
			t.Errorf("%s: no error", name)
			continue
		}
		for _, want := range c.want {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("%s: %q lacks %q", name, err, want)
			}
		}
	}
}

// The sums of files are those of sha256sum (coreutils 9.1), the recipe is the first.
func TestHash(t *testing.T) {
	path := island(t, nil)
	_, in, err := opened(t, path)
	if err != nil {
		t.Fatal(err)
	}
	if err := in.Hash(path); err != nil {
		t.Fatal(err)
	}
	if f := in.Files[0]; f.Role != "recipe" || f.Name != "skerry.yaml" || len(f.SHA256) != 64 {
		t.Errorf("the first file is %+v", f)
	}
	want := inputs.File{Role: "places", Name: "places.csv", Bytes: 38, SHA256: "07338883a8c53f599212eb5c52cc4d09e68151c5b4b79cca8cad369e50083fe0"}
	if !slices.Contains(in.Files, want) {
		t.Errorf("%+v, want %+v among them", in.Files, want)
	}
	for _, p := range in.Paths() {
		if _, err := os.Stat(p); err != nil || filepath.Dir(p) != filepath.Dir(path) {
			t.Errorf("%s: %v", p, err)
		}
	}
}

// A list of places without any is noted, and none is no error.
func TestNoPlaces(t *testing.T) {
	_, in, err := opened(t, island(t, map[string]string{"places.csv": "name,lat,lon\n"}))
	if err != nil || !slices.ContainsFunc(in.Notes, func(n string) bool { return strings.HasSuffix(n, "places.csv: no place below the first line") }) {
		t.Errorf("%v, notes %v", err, in)
	}
}
