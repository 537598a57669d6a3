package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"image"
	"image/png"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"

	"weekband/cmd/weekband/internal/answer"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid"
	"weekband/grid/oracle"
	"weekband/grid/source"
	"weekband/regions/polygons"
)

// weekband runs the program as a user would.
func weekband(t *testing.T, args ...string) (code int, out, log string) {
	t.Helper()
	var o, l bytes.Buffer
	code = run(t.Context(), args, &o, &l)
	return code, o.String(), l.String()
}

// raced is true under the race detector, which makes drawing ten times slower.
var raced bool

var demoOnce struct {
	sync.Once
	dir string
}

// unraced skips a test that builds a whole edition with all its pictures where
// the race detector runs; the gate runs it without. TestSmallEdition is the
// build that runs under the detector.
func unraced(t *testing.T) {
	t.Helper()
	if testing.Short() || raced {
		t.Skip("takes long; the gate runs it without the race detector")
	}
}

// demoEdition builds the demo once for all tests; see unraced.
func demoEdition(t *testing.T) string {
	t.Helper()
	unraced(t)
	demoOnce.Do(func() {
		dir, err := os.MkdirTemp("", "weekband-test-")
		if err != nil {
			t.Fatal(err)
		}
		out := filepath.Join(dir, "demo")
		if code, _, log := weekband(t, "demo", "--out", out); code != exitOK {
			t.Fatalf("demo: exit code %d\n%s", code, log)
		}
		demoOnce.dir = out
	})
	if demoOnce.dir == "" {
		t.Fatal("the demo was not built")
	}
	return demoOnce.dir
}

// cold lets a test, and what it starts, take no work from other builds.
func cold(t *testing.T) {
	t.Helper()
	t.Setenv("WEEKBAND_CACHE", "off")
}

func TestMain(m *testing.M) {
	work, err := os.MkdirTemp("", "weekband-test-") // tests of one run share what they drew
	if err != nil {
		panic(err)
	}
	os.Setenv("WEEKBAND_CACHE", work)
	code := m.Run()
	os.RemoveAll(work)
	if demoOnce.dir != "" {
		os.RemoveAll(filepath.Dir(demoOnce.dir))
	}
	if hostile.twin != "" {
		os.RemoveAll(filepath.Dir(filepath.Dir(hostile.twin)))
	}
	os.Exit(code)
}

var windowIDs = []string{"summer-annuals", "winter-annuals"}

func TestDemoWritesTheContract(t *testing.T) {
	out := demoEdition(t)
	want := []string{
		"index.html", "assets/style.css", "manifest.json", "tables/regions.csv", "tables/regions.xlsx",
		"tables/cells.csv.gz", "data/regions.geojson", "data/lookup.json",
	}
	for _, id := range windowIDs {
		want = append(want, "maps/"+id+".png", "maps/"+id+".svg", "maps/"+id+".pdf", "maps/"+id+"-narrow.png", "maps/"+id+"-grey.png", "maps/"+id+"-sheet.png", "maps/"+id+"-sheet-narrow.png", "weeks/"+id+".gif",
			"maps/"+id+"-early.png", "maps/"+id+"-late.png", "maps/"+id+"-error.png", "data/"+id+".tif", "data/bands-"+id+".geojson")
		frames, err := filepath.Glob(filepath.Join(out, "weeks", id, "[0-5][0-9].png"))
		if err != nil || len(frames) < 10 {
			t.Errorf("%s: %d week frames", id, len(frames))
		}
	}
	for _, name := range want {
		if info, err := os.Stat(filepath.Join(out, filepath.FromSlash(name))); err != nil || info.Size() == 0 {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// region is one line of the region table by column.
type region map[string]string

func regionTable(t *testing.T, out string) []region {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(out, "tables", "regions.csv"))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	const contract = "window,region_id,region,area_km2,median_day,p10_day,p90_day,median_week,ahead_from," +
		"ontime_from,ontime_to,catchup_to,never_share,always_share,nodata_share,flat_share,expected_error_days"
	if got := strings.Join(rows[0], ","); got != contract {
		t.Fatalf("columns %s\nwant    %s", got, contract)
	}
	var table []region
	for _, row := range rows[1:] {
		r := region{}
		for i, column := range rows[0] {
			r[column] = row[i]
		}
		table = append(table, r)
	}
	return table
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestDemoRegions(t *testing.T) {
	table := regionTable(t, demoEdition(t))
	if len(table) != 36 {
		t.Fatalf("%d rows, want 18 regions under two windows", len(table))
	}
	always, never := false, false
	for _, r := range table {
		always = always || number(t, r["always_share"]) > 0.5
		if r["median_day"] == "" {
			continue
		}
		p10, median, p90 := number(t, r["p10_day"]), number(t, r["median_day"]), number(t, r["p90_day"])
		if !(p10 <= median && median <= p90) {
			t.Errorf("%s: quantiles %v, %v, %v", r["region"], p10, median, p90)
		}
		never = never || number(t, r["never_share"]) > 0
	}
	if !always || !never {
		t.Errorf("a region mostly above the threshold all year: %v; ground that never reaches it: %v; the territory has both", always, never)
	}
}

// The published grid reads back, and GDAL reads it too.
func TestDemoGrid(t *testing.T) {
	name := filepath.Join(demoEdition(t), "data", "summer-annuals.tif")
	l, err := source.Open(name, source.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	n := l.Grid().Cells()
	vals, has := make([]float32, n), make([]bool, n)
	if err := l.Read(0, 0, l.Grid().Rows(), vals, has); err != nil {
		t.Fatal(err)
	}
	dated := 0
	for i, ok := range has {
		if ok {
			dated++
			if vals[i] < 1 || vals[i] >= 366 {
				t.Fatalf("cell %d: crossing day %v", i, vals[i])
			}
		}
	}
	if dated < 5000 {
		t.Errorf("%d dated cells", dated)
	}
	info := string(oracle.Run(t, nil, "gdalinfo", name))
	for _, want := range []string{"Size is 160, 120", "Type=Float32", "NoData Value=-9999", "WGS 84"} {
		if !strings.Contains(info, want) {
			t.Errorf("gdalinfo does not say %q:\n%s", want, info)
		}
	}
}

func TestDemoBandsAreGeoJSON(t *testing.T) {
	for _, id := range windowIDs {
		f, err := os.Open(filepath.Join(demoEdition(t), "data", "bands-"+id+".geojson"))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		set, err := polygons.Decode(f, "bands", polygons.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(set.Regions) < 5 || len(set.Warnings) > 0 {
			t.Errorf("%s: %d bands, warnings %q", id, len(set.Regions), set.Warnings)
		}
	}
}

// pictureIn reads a PNG.
func pictureIn(t *testing.T, path string) image.Image {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	im, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return im
}

func TestDemoPicturesHoldAMap(t *testing.T) {
	for _, id := range windowIDs {
		img := pictureIn(t, filepath.Join(demoEdition(t), "maps", id+".png"))
		colours := map[[3]uint32]int{}
		b := img.Bounds()
		for y := b.Min.Y; y < b.Max.Y; y += 4 {
			for x := b.Min.X; x < b.Max.X; x += 4 {
				r, g, bl, _ := img.At(x, y).RGBA()
				colours[[3]uint32{r >> 8, g >> 8, bl >> 8}]++
			}
		}
		common := 0
		for _, n := range colours {
			if n > 2000 {
				common++
			}
		}
		if b.Dx() != recipe.DefaultSize*tracing.MapScale || common < 6 {
			t.Errorf("%s: %d pixels wide, %d common colours", id, b.Dx(), common)
		}
	}
}

// One window on an island, at the least size and without further maps: a whole
// build short enough for the race detector.
func TestSmallEdition(t *testing.T) {
	cold(t)
	made := built(t, islet(t), filepath.Join(t.TempDir(), "out"))
	for _, name := range []string{"index.html", "manifest.json", "maps/spring.png", "maps/spring.svg", "maps/spring.pdf", "weeks/spring.gif", "regions/west-skerry.html"} {
		if len(made[name]) == 0 {
			t.Errorf("%s was not written", name)
		}
	}
	for name := range made {
		if strings.HasPrefix(name, "maps/") && strings.Contains(name, "-error") {
			t.Errorf("%s was not asked for", name)
		}
	}
}

// Same inputs, same bytes, with one worker and with several, however progress
// is told; and as much is done as was said.
func TestDemoIsReproducible(t *testing.T) {
	unraced(t)
	cold(t)
	first := demoEdition(t)
	second := filepath.Join(t.TempDir(), "demo")
	procs := runtime.GOMAXPROCS(1)
	code, _, log := weekband(t, "demo", "--json", "--out", second)
	runtime.GOMAXPROCS(procs)
	if code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	wholly(t, log)
	a, b := files(t, first), files(t, second)
	if len(a) != len(b) {
		t.Errorf("%d files, then %d", len(a), len(b))
	}
	for name, bytesA := range a {
		if !bytes.Equal(bytesA, b[name]) {
			t.Errorf("%s differs", name)
		}
	}
}

func files(t *testing.T, dir string) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		all[name], err = os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestLookup(t *testing.T) {
	out := demoEdition(t)
	code, text, log := weekband(t, "lookup", out, "vennaford")
	if code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	for _, want := range []string{"Vennaford (", "Sellow Vale", "on time", "catching up", "How sure", "label is the law"} {
		if !strings.Contains(text, want) {
			t.Errorf("the answer lacks %q:\n%s", want, text)
		}
	}
	code, text, _ = weekband(t, "lookup", out, "vennaford", "--json")
	var r answer.Reply
	if err := json.Unmarshal([]byte(text), &r); err != nil || code != exitOK {
		t.Fatalf("exit code %d, %v\n%s", code, err, text)
	}
	if len(r.Windows) != 2 || r.Windows[0].Dates == nil || r.Windows[0].Reason != "dated" || len(r.Cautions) == 0 {
		t.Errorf("reply %+v", r)
	}
	code, text, _ = weekband(t, "lookup", out, "38.0,-54.0")
	if code != exitOK || !strings.Contains(text, "No data here") {
		t.Errorf("out at sea: exit code %d\n%s", code, text)
	}
	code, text, _ = weekband(t, "lookup", out, "Sôlenne")
	if code != exitOK || !strings.Contains(text, "middle of the region") {
		t.Errorf("a region: exit code %d\n%s", code, text)
	}
}

// What lookup says of a cell is what the grid says: the same date, and the day
// to an eighth.
func TestLookupAgreesWithTheCells(t *testing.T) {
	out := demoEdition(t)
	l, err := source.Open(filepath.Join(out, "data", "summer-annuals.tif"), source.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	g := l.Grid()
	vals, has := make([]float32, g.Cells()), make([]bool, g.Cells())
	if err := l.Read(0, 0, g.Rows(), vals, has); err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(vals); i += 97 {
		if !has[i] {
			continue
		}
		at := g.Center(cellOf(i, g.Cols()))
		_, text, _ := weekband(t, "lookup", out, "--json", strconv.FormatFloat(at.Lat, 'f', 6, 64)+","+strconv.FormatFloat(at.Lon, 'f', 6, 64))
		var r answer.Reply
		if err := json.Unmarshal([]byte(text), &r); err != nil {
			t.Fatal(err)
		}
		if r.Windows[0].Day == nil || math.Floor(*r.Windows[0].Day) != math.Floor(float64(vals[i])) || math.Abs(*r.Windows[0].Day-float64(vals[i])) > 0.13 {
			t.Errorf("%v: lookup says %v, the grid %v", at, r.Windows[0].Day, vals[i])
		}
	}
}

func TestWrongUseGetsWords(t *testing.T) {
	out := demoEdition(t)
	letter := filepath.Join(t.TempDir(), "mine")
	if err := os.MkdirAll(letter, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(letter, "letter.txt"), []byte("dear"), 0o644); err != nil {
		t.Fatal(err)
	}
	cases := []struct {
		name string
		args []string
		code int
		want string
	}{
		{"mistyped command", []string{"biuld", "x"}, exitUsage, "did you mean"},
		{"mistyped flag", []string{"demo", "--outt", "x"}, exitUsage, "demo has no option --outt; did you mean --out?"},
		{"no recipe", []string{"build"}, exitUsage, "lacks RECIPE"},
		{"recipe not there", []string{"build", "none.yaml"}, exitData, "none.yaml"},
		{"no edition", []string{"lookup", t.TempDir(), "x"}, exitData, "no edition"},
		{"unknown place", []string{"lookup", out, "zzzzzz"}, exitData, "no place or region"},
		{"near place", []string{"lookup", out, "merrow"}, exitOK, ""},
		{"position off the globe", []string{"lookup", out, "95,10"}, exitUsage, "latitude -90 to 90"},
		{"a folder of someone else", []string{"demo", "--out", letter}, exitData, "weekband did not write"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			code, _, log := weekband(t, c.args...)
			if code != c.code || !strings.Contains(log, c.want) {
				t.Errorf("exit code %d, want %d; log:\n%s\nwant %q", code, c.code, log, c.want)
			}
		})
	}
}

// unpacked writes the demo's recipe and data into a folder and returns the
// recipe's text.
func unpacked(t *testing.T) (dir, recipe string) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "merrow")
	if code, _, log := weekband(t, "demo", "--unpack", dir); code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	text, err := os.ReadFile(filepath.Join(dir, "recipe.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return dir, string(text)
}

// Each broken input must give exit code 1 and words that name it, and leave
// no half-written edition.
func TestBrokenInputs(t *testing.T) {
	cases := []struct {
		name     string
		from, to string // in the recipe
		want     string
	}{
		{"missing normals", "normals.tif", "abnormals.tif", "no file matches"},
		{"normals that are something else", "files: [normals.tif]", "files: [places.csv]", "places.csv"},
		{"one layer", "files: [normals.tif]", "files: [elevation.tif]", "elevation.tif"},
		{"regions that are something else", "file: regions.geojson", "file: places.csv", "places.csv"},
		{"unknown property", "id: code", "id: kode", "kode"},
		{"places that are something else", "places: places.csv", "places: regions.geojson", "regions.geojson"},
		{"wrong unit of the data", "unit: C", "unit: K", "normals.tif"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dir, text := unpacked(t)
			broken := strings.Replace(text, c.from, c.to, 1)
			if broken == text {
				t.Fatalf("the recipe has no %q", c.from)
			}
			path := filepath.Join(dir, "recipe.yaml")
			if err := os.WriteFile(path, []byte(broken), 0o644); err != nil {
				t.Fatal(err)
			}
			out := filepath.Join(t.TempDir(), "out", "x")
			code, _, log := weekband(t, "build", path, "--out", out)
			if code != exitData || !strings.Contains(log, c.want) {
				t.Errorf("exit code %d; log:\n%s\nwant %q", code, log, c.want)
			}
			if left, _ := os.ReadDir(filepath.Dir(out)); len(left) > 0 {
				t.Errorf("left behind: %v", left)
			}
		})
	}
}

func TestHelpAndVersion(t *testing.T) {
	code, out, log := weekband(t)
	if code != exitOK || !strings.Contains(out+log, "lookup") {
		t.Errorf("no arguments: exit code %d\n%s%s", code, out, log)
	}
	if code, out, _ := weekband(t, "version"); code != exitOK || !strings.Contains(out, publish.Version) {
		t.Errorf("version: exit code %d, %q", code, out)
	}
}

// The program builds as a command and exits with run's code.
func TestExitCodeReachesTheShell(t *testing.T) {
	unraced(t)
	bin := filepath.Join(t.TempDir(), "weekband")
	if text, err := exec.Command("go", "build", "-o", bin, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	err := exec.Command(bin, "build").Run()
	exit, ok := errors.AsType[*exec.ExitError](err)
	if !ok || exit.ExitCode() != exitUsage {
		t.Errorf("got %v, want exit code %d", err, exitUsage)
	}
}

// cellOf returns the cell at an index that counts row by row.
func cellOf(i, cols int) grid.Cell { return grid.Cell{Row: i / cols, Col: i % cols} }
