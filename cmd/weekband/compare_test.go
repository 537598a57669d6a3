package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/comparison"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/publish"
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/source/geotiff"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/weeks"
	"weekband/regions/polygons"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/lookup"
	"weekband/render/tables"
)

// valeRegions are two squares, west and east of 46° W.
const valeRegions = `{"type":"FeatureCollection","features":[

{"type":"Feature","properties":{"id":"W","title":"Westvale"},"geometry":{"type":"Polygon","coordinates":[[[-48,36],[-46,36],[-46,38],[-48,38],[-48,36]]]}},
{"type":"Feature","properties":{"id":"E","title":"Eastvale"},"geometry":{"type":"Polygon","coordinates":[[[-46,36],[-44,36],[-44,38],[-46,38],[-46,36]]]}}]}`

// handMade is a tiny edition made by hand: days by row from the north, n for
// never, window by window.
type handMade struct {
	edition int
	version string
	soil    string
	windows []status.Window
	days    map[string][]string // by id of window
	recipe  map[string]string
}

func newHandMade() *handMade {
	spring := status.Window{ID: "spring", Title: "Spring weeds", Trigger: crossing.Trigger{Level: 12.7778}, Starts: crossing.Trigger{Level: 10}, AheadDays: 21}
	return &handMade{
		edition: 2027, version: "0.1.0", soil: "soil at 4 in (10 cm)", windows: []status.Window{spring},
		days:   map[string][]string{"spring": {"86 86 93 n", "86 86 93 93"}},
		recipe: map[string]string{"size": "800", "insets[1].title": "Far East", "insets[1].box": "[-46, 36, -44, 38]"},
	}
}

// field lays a window's days on the vale.
func (v *handMade) field(t *testing.T, w status.Window) *weeks.Field {
	t.Helper()
	rows := v.days[w.ID]
	g, err := grid.New(grid.Box{West: -48, South: 36, East: -44, North: 38}, len(rows), len(strings.Fields(rows[0])))
	if err != nil {
		t.Fatal(err)
	}
	f := &weeks.Field{
		Window: w, Cut: 1, Reason: grid.NewRaster[crossing.Reason](g), Day: grid.NewRaster[float32](g),
		Spread: grid.NewRaster[float32](g), OntimeFrom: grid.NewRaster[float32](g), CatchupTo: grid.NewRaster[float32](g),
		Common: &weeks.Common{},
	}
	for row, text := range rows {
		for col, word := range strings.Fields(text) {
			c := grid.Cell{Row: row, Col: col}
			if word == "n" {
				f.Reason.Set(c, crossing.Never)
				continue
			}
			var day float32
			if _, err := fmt.Sscan(word, &day); err != nil {
				t.Fatal(err)
			}
			f.Reason.Set(c, crossing.Dated)
			for r, v := range map[*grid.Raster[float32]]float32{f.Day: day, f.Spread: 11, f.OntimeFrom: day - 20, f.CatchupTo: day + 40} {
				r.Set(c, v)
			}
		}
	}
	return f
}

// write writes what comparing reads of an edition, and returns its folder.
func (v *handMade) write(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	set, err := polygons.Decode(strings.NewReader(valeRegions), "regions", polygons.Options{ID: "id", Name: "title"})
	if err != nil {
		t.Fatal(err)
	}
	m := output.Manifest{Program: "weekband", Version: v.version, Title: "Soil warm-up, Merrow Vale", Edition: v.edition, Soil: v.soil, Grid: "of the vale", Recipe: v.recipe}
	var fields []*weeks.Field
	for _, w := range v.windows {
		f := v.field(t, w)
		fields = append(fields, f)
		m.Windows = append(m.Windows, output.NewWindowManifest(&f.Window, output.FiguresOf([]*weeks.Field{f})[0]))
		if err := publish.Create(root, output.GridFile(w.ID), func(out io.Writer) error { return output.WriteDays(out, f) }); err != nil {
			t.Fatal(err)
		}
	}
	covers := zonal.CoverAll(set, fields[0].Grid())
	data := lookup.Data{Fields: fields, Covers: covers}
	for _, r := range set.Regions {
		data.Regions = append(data.Regions, lookup.Region{Name: r.Name, ID: r.ID, Slug: r.ID})
	}
	for _, err := range []error{
		publish.Create(root, output.TableCSV, func(out io.Writer) error { return tables.RegionsCSV(out, report.Build(fields, set, covers)) }),
		publish.Create(root, output.RegionsFile, func(out io.Writer) error { _, err := io.WriteString(out, valeRegions); return err }),
		lookup.Write(root, lookup.Index{Title: m.Title, Edition: m.Edition, Measures: m.Soil}, data),
		output.WriteManifest(root, m),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func compareReply(t *testing.T, args ...string) (r comparison.Reply) {
	t.Helper()
	code, out, log := weekband(t, append([]string{"compare", "--json"}, args...)...)
	if code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	return r
}

// Worked out by hand: the west moves from the week of Mar 26 to that of Mar
// 19, the east keeps Apr 2, and its cold corner gets a week.
func TestCompareByHand(t *testing.T) {
	older, newer := newHandMade(), newHandMade()
	newer.edition, newer.version = 2028, "0.2.0"
	newer.days["spring"] = []string{"79.5 79.5 92.5 99", "79.5 79.5 92.5 93"}
	a, b := older.write(t), newer.write(t)
	code, out, log := weekband(t, "compare", a, b)
	if code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	for _, want := range []string{
		"the edition of 2028 against the edition of 2027", "another version of weekband: 0.2.0 in place of 0.1.0",
		"-6.5 in the middle", "regions      2: week the same in 1, earlier in 1, later in 0",
		"Westvale                     Mar 26–Apr 1 → Mar 19–25, -6.5 days in the middle",
		"on the whole about a week earlier than in the edition of 2027 (eight tenths of the ground: from about a week earlier to no shift)",
		"1 keeps it; 1 has an earlier one, Westvale (from Mar 26–Apr 1 to Mar 19–25).", "Behind the change: a newer version of the program.",
		"The product label is the law",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("the summary lacks %q:\n%s", want, out)
		}
	}
	r := compareReply(t, a, b)
	w := r.Windows[0]
	if r.Same || w.Days == nil || *w.Days != (comparison.DaysReply{Least: -6.5, P10: -6.5, Median: -6.5, P90: 0, Most: 0}) {
		t.Errorf("days %+v", w.Days)
	}
	if w.Count["earlier"] != 1 || w.Count["same"] != 1 || len(w.Moved) != 1 || w.Moved[0].ID != "W" || w.Moved[0].Weeks != -1 {
		t.Errorf("regions %v, %+v", w.Count, w.Moved)
	}
	f := older.field(t, older.windows[0])
	north, south := f.Grid().CellArea(0), f.Grid().CellArea(1)
	for name, c := range map[string][2]float64{
		"gained": {w.FateKm2["gained"], north}, "day in both": {w.FateKm2["day_in_both"], 3*north + 4*south},
		"a week earlier": {w.Weeks["-1"], 2*north + 2*south}, "same week": {w.Weeks["0"], north + 2*south},
	} {
		if d := c[0] - c[1]; d > 0.06 || d < -0.06 { // written to a tenth
			t.Errorf("%s: %g km², want %g", name, c[0], c[1])
		}
	}
}

func TestCompareTellsWhenNothingMoved(t *testing.T) {
	older, newer := newHandMade(), newHandMade()
	newer.edition = 2028
	a, b := older.write(t), newer.write(t)
	out := filepath.Join(t.TempDir(), "moved")
	code, text, log := weekband(t, "compare", a, b, "--out", out)
	if code != exitOK || !strings.Contains(text, "Nothing moved: every cell and every region has the same week in both (spring).") {
		t.Errorf("exit code %d\n%s%s", code, text, log)
	}
	made := files(t, out)
	if len(made["comparison.json"]) == 0 || len(made["spring.tif"]) == 0 || made["spring.png"] != nil {
		t.Errorf("%d files", len(made))
	}
	if !strings.Contains(string(made["paragraph.txt"]), "nothing has moved from the edition of 2027 to the edition of 2028") {
		t.Errorf("%s", made["paragraph.txt"])
	}
	if !compareReply(t, a, a).Same {
		t.Error("an edition has moved from itself")
	}
}

// Windows are paired by id, else by direction and threshold; what is left is
// told. Two windows of one edition are told as such.
func TestCompareWindows(t *testing.T) {
	window := func(id string, level units.Celsius, d crossing.Direction) status.Window {
		return status.Window{ID: id, Title: "Window " + id, Trigger: crossing.Trigger{Level: level, Direction: d}, Starts: crossing.Trigger{Level: level, Direction: d}}
	}
	older, newer := newHandMade(), newHandMade()
	older.windows = append(older.windows, window("crab", 15, crossing.Warming), window("fall", 21, crossing.Cooling))
	newer.windows = append(newer.windows, window("late", 15.0001, crossing.Warming), window("fall", 21, crossing.Warming), window("other", 9, crossing.Warming))
	for _, v := range []*handMade{older, newer} {
		for i, w := range v.windows {
			v.days[w.ID] = []string{fmt.Sprintf("%d %[1]d 93 93", 86+14*i), fmt.Sprintf("%d %[1]d 93 93", 86+14*i)}
		}
	}
	a, b := older.write(t), newer.write(t)
	r := compareReply(t, a, b)
	if len(r.Windows) != 2 || r.Windows[1].Before.ID != "crab" || r.Windows[1].After.ID != "late" {
		t.Errorf("%+v", r.Windows)
	}
	notes := strings.Join(r.Notes, "\n")
	for _, want := range []string{
		"window late is compared with crab of the older edition: both are warming to 59 °F (15 °C)",
		"window fall is cooling in one edition and warming in the other: not compared", "window other is only in the newer edition",
	} {
		if !strings.Contains(notes, want) {
			t.Errorf("no note %q in:\n%s", want, notes)
		}
	}
	code, out, log := weekband(t, "compare", a, "--windows", "spring,crab")
	if code != exitOK || !strings.Contains(out, "edition 2027: two windows") || strings.Contains(out, "Why") ||
		!strings.Contains(out, "The typical week of “Window crab” comes on the whole ") || !strings.Contains(out, " that of “Spring weeds” (eight tenths of the ground: from no shift to about 2 weeks later).") ||
		!strings.Contains(out, "farthest apart in Westvale (Mar 26–Apr 1 and Apr 9–15) and closest together in Eastvale") {
		t.Errorf("exit code %d\n%s%s", code, out, log)
	}
	if r := compareReply(t, a, b, "--windows", "crab,other"); len(r.Windows) != 1 || r.Windows[0].After.ID != "other" {
		t.Errorf("%+v", r.Windows)
	}
}

// Of two grids the finer counts, and the note says so: each half of a wide
// cell has its day.
func TestCompareOtherGrids(t *testing.T) {
	older, newer := newHandMade(), newHandMade()
	older.days["spring"] = []string{"86 93"}
	r := compareReply(t, older.write(t), newer.write(t))
	if len(r.Notes) != 1 || !strings.Contains(r.Notes[0], "the grids differ") {
		t.Errorf("notes %q", r.Notes)
	}
	f := newer.field(t, newer.windows[0])
	north, south := f.Grid().CellArea(0), f.Grid().CellArea(1)
	w := r.Windows[0]
	if d := w.Weeks["0"] - 3*north - 4*south; d > 0.06 || d < -0.06 || w.FateKm2["lost"] == 0 || len(w.Weeks) != 1 {
		t.Errorf("%+v", w)
	}
}

func TestCompareRefuses(t *testing.T) {
	v := newHandMade()
	a, b := v.write(t), v.write(t)
	moved := filepath.Join(t.TempDir(), "moved")
	if code, _, log := weekband(t, "compare", a, b, "--out", moved); code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	damaged := func(name, text string) string {
		dir := v.write(t)
		err := os.Remove(filepath.Join(dir, name))
		if text != "" {
			err = os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
		return dir
	}
	far := func() string {
		dir := v.write(t)
		root, err := os.OpenRoot(dir)
		if err != nil {
			t.Fatal(err)
		}
		defer root.Close()
		r := grid.NewRaster[float32](v.field(t, v.windows[0]).Grid())
		r.Set(grid.Cell{Row: 1, Col: 2}, 400)
		if err := publish.Create(root, output.GridFile("spring"), func(w io.Writer) error {
			return output.WriteGrid(w, r, func(v float32) float32 { return v }, geotiff.WriteOptions{})
		}); err != nil {
			t.Fatal(err)
		}
		return dir
	}()
	none := newHandMade()
	none.windows[0].ID, none.windows[0].Trigger.Level, none.days["other"] = "other", 20, none.days["spring"]
	for name, c := range map[string]struct {
		args []string
		code int
		want string
	}{
		"one edition":         {[]string{a}, exitUsage, "two editions, or one and two of its windows"},
		"one window":          {[]string{a, "--windows", "spring"}, exitUsage, "--windows names 1 windows; want two"},
		"a window twice":      {[]string{a, "--windows", "spring,spring"}, exitUsage, "twice"},
		"no such window":      {[]string{a, b, "--windows", "spring,fall"}, exitUsage, `window "fall": ` + b + " has spring"},
		"no edition":          {[]string{a, t.TempDir()}, exitData, "this is no edition that weekband built"},
		"no folder":           {[]string{filepath.Join(a, "none"), b}, exitData, "this is no edition that weekband built"},
		"a comparison":        {[]string{a, moved}, exitData, "this is a comparison of two editions"},
		"newer format":        {[]string{a, damaged(lookup.IndexFile, `{"format":99}`)}, exitData, "format 99, of a newer weekband"},
		"no grid":             {[]string{a, damaged(output.GridFile("spring"), "")}, exitData, "data/spring.tif is missing, though the manifest tells of that window"},
		"no table":            {[]string{damaged(output.TableCSV, ""), b}, exitData, "tables/regions.csv is missing"},
		"broken grid":         {[]string{a, damaged(output.GridFile("spring"), "II*\x00")}, exitData, "spring.tif"},
		"a day of no year":    {[]string{a, far}, exitData, "row 1, column 2: day 400 is outside 1 to 366"},
		"no shard":            {[]string{a, damaged("data/lookup/0-0.js", "")}, exitData, "0-0.js"},
		"nothing alike":       {[]string{a, none.write(t)}, exitData, "none are alike"},
		"an edition as --out": {[]string{a, b, "--out", v.write(t)}, exitData, "there is no comparison.json"},
	} {
		code, _, log := weekband(t, append([]string{"compare"}, c.args...)...)
		if code != c.code || !strings.Contains(log, c.want) {
			t.Errorf("%s: exit code %d, %q; want %d, %q", name, code, log, c.code, c.want)
		}
	}
	// An older edition of another format is compared all the same.
	code, out, log := weekband(t, "compare", damaged(lookup.IndexFile, `{"format":1}`), b)
	if code != exitOK || !strings.Contains(out, "Nothing moved") || !strings.Contains(log, "why some of its ground has no week is not known") {
		t.Errorf("exit code %d\n%s%s", code, out, log)
	}
}

// Without regions the map shows the ground that either covers.
func TestCompareWithoutRegions(t *testing.T) {
	unraced(t)
	older, newer := newHandMade(), newHandMade()
	newer.days["spring"] = []string{"79.5 79.5 92.5 99", "79.5 79.5 n 93"}
	a, b := older.write(t), newer.write(t)
	head, _, _ := strings.Cut(string(files(t, a)[output.TableCSV]), "\n")
	for _, dir := range []string{a, b} {
		if err := os.Remove(filepath.Join(dir, output.RegionsFile)); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, output.TableCSV), []byte(head+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	out := filepath.Join(t.TempDir(), "moved")
	code, text, log := weekband(t, "compare", a, b, "--out", out)
	if code != exitOK || strings.Contains(text, "regions") || !strings.Contains(text, "-6.5 in the middle") {
		t.Errorf("exit code %d\n%s%s", code, text, log)
	}
	if made := files(t, out); len(made["spring.png"]) == 0 {
		t.Errorf("no map among %d files", len(made))
	}
}

// The same editions give the same folder, with one worker and with several,
// whatever the folders are called.
func TestComparisonIsReproducible(t *testing.T) {
	unraced(t)
	older, newer := newHandMade(), newHandMade()
	newer.days["spring"] = []string{"79.5 79.5 92.5 99", "79.5 79.5 n 93"}
	var first map[string][]byte
	for _, workers := range []int{1, 4} {
		out := filepath.Join(t.TempDir(), "moved")
		a, b := older.write(t), newer.write(t)
		procs := runtime.GOMAXPROCS(workers)
		code, _, log := weekband(t, "compare", a, b, "--out", out)
		runtime.GOMAXPROCS(procs)
		if code != exitOK {
			t.Fatalf("exit code %d\n%s", code, log)
		}
		made := files(t, out)
		for _, name := range []string{"comparison.json", "summary.txt", "paragraph.txt", "regions.csv", "spring.tif", "spring.png", "spring-grey.png"} {
			if len(made[name]) == 0 {
				t.Errorf("%s was not written", name)
			}
		}
		for name, bytes := range first {
			if string(bytes) != string(made[name]) {
				t.Errorf("%s differs with %d workers", name, workers)
			}
		}
		first = made
	}
}
