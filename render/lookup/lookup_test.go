package lookup_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/source"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/weeks"
	"weekband/grid/worth"
	"weekband/render/lookup"
)

// A cell's date is the field's; other days are off by no more than half a step
// of what is kept.
func TestWhatIsWrittenIsRead(t *testing.T) {
	e, _ := edition(t)
	f := field(t)
	for row := 0; row < 70; row += 9 {
		for col := range 133 {
			c := grid.Cell{Row: row, Col: col}
			answers, err := e.At(f.Grid().Center(c))
			if err != nil {
				t.Fatal(err)
			}
			a := answers[0]
			if reason, _ := f.Reason.At(c); a.Reason != reason || a.Beyond != f.BeyondReach(c) {
				t.Fatalf("%v: %v, want %v", c, a.Reason, reason)
			}
			cal, ok := f.Calendar(c)
			if !ok {
				if a.Calendar != (status.Calendar{}) {
					t.Fatalf("%v: a calendar without a crossing", c)
				}
				continue
			}
			if math.Floor(float64(a.Day)) != math.Floor(float64(cal.OntimeTo)) || a.Day.Week() != cal.OntimeTo.Week() {
				t.Fatalf("%v: %v, want the date and week of %v", c, a.Day, cal.OntimeTo)
			}
			lead, wantLead := float64(a.Day-a.Calendar.OntimeFrom), float64(cal.OntimeTo-cal.OntimeFrom)
			tail, wantTail := float64(a.Calendar.CatchupTo-a.Day), float64(cal.CatchupTo-cal.OntimeTo)
			if math.Abs(float64(a.Day-cal.OntimeTo)) > 0.125 || math.Abs(lead-wantLead) > 0.02*wantLead || math.Abs(tail-wantTail) > 0.02*wantTail {
				t.Fatalf("%v: %+v, want %+v", c, a, cal)
			}
			spread, _ := f.Spread.At(c)
			if math.Abs(a.Spread-float64(spread)) > 0.025*float64(spread) || math.Abs(a.Error-f.ErrorAt(c)) > 0.025*f.ErrorAt(c) {
				t.Fatalf("%v: %v and %v days, want %v and %v", c, a.Spread, a.Error, spread, f.ErrorAt(c))
			}
		}
	}
}

// Large editions, kept coarse, tell the date of a crossing as exactly, and other
// days to what precision.go says.
func TestLargeEditionsKeepTheDate(t *testing.T) {
	f := fieldOf(t, 401, 301)
	e, checked := write(t, t.TempDir(), data(f)), 0
	for i := 0; i < f.Grid().Cells(); i += 397 {
		c := grid.Cell{Row: i / 301, Col: i % 301}
		cal, ok := f.Calendar(c)
		if !ok {
			continue
		}
		answers, err := e.At(f.Grid().Center(c))
		if err != nil {
			t.Fatal(err)
		}
		a := answers[0]
		lead, tail := float64(cal.OntimeTo-cal.OntimeFrom), float64(cal.CatchupTo-cal.OntimeTo)
		if a.Day.ISO() != cal.OntimeTo.ISO() || math.Abs(float64(a.Day-cal.OntimeTo)) > 0.5 ||
			math.Abs(float64(a.Day-a.Calendar.OntimeFrom)-lead) > 0.036*lead || math.Abs(float64(a.Calendar.CatchupTo-a.Day)-tail) > 0.031*tail {
			t.Fatalf("%v: %+v, want %+v", c, a, cal)
		}
		checked++
	}
	if checked < 200 {
		t.Errorf("only %d cells have a day", checked)
	}
}

// Reasons of all cells are those of the fields, and cells without normals have
// none.
func TestReasonsComeBack(t *testing.T) {
	f := field(t)
	dir := t.TempDir()
	d := data(f)
	write(t, dir, d)
	e, err := lookup.Open(os.DirFS(dir))
	if err != nil {
		t.Fatal(err)
	}
	got, err := e.Reasons()
	if err != nil || len(got) != len(d.Fields) {
		t.Fatalf("%d rasters, %v", len(got), err)
	}
	seen := map[crossing.Reason]int{}
	for i, f := range d.Fields {
		for row := range f.Grid().Rows() {
			for col := range f.Grid().Cols() {
				c := grid.Cell{Row: row, Col: col}
				want, there := f.Reason.At(c)
				if why, ok := got[i].At(c); why != want || ok != (there && want != crossing.NoData) {
					t.Fatalf("window %d, %v: %v, %v; want %v, %v", i, c, why, ok, want, there)
				}
				seen[want]++
			}
		}
	}
	if len(seen) < 3 {
		t.Errorf("the fields have the reasons %v only", seen)
	}
}

func TestOffTheGridThereIsNoData(t *testing.T) {
	e, _ := edition(t)
	for _, p := range []grid.LonLat{{Lon: -91.01, Lat: 38}, {Lon: -85, Lat: 40}, {}} {
		answers, err := e.At(p)
		if err != nil || len(answers) != 2 || answers[0].Reason != crossing.NoData {
			t.Errorf("%v: %+v, %v", p, answers, err)
		}
	}
}

func TestDamagedEditionsAreRefused(t *testing.T) {
	e, dir := edition(t)
	at := field(t).Grid().Center(grid.Cell{Row: 1, Col: 5})
	name := dir + "/data/lookup/0-0.js"
	whole, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	other, err := os.ReadFile(dir + "/data/lookup/1-0.js")
	if err != nil {
		t.Fatal(err)
	}
	for what, text := range map[string]string{
		"cut": string(whole[:len(whole)/2]), "empty": "", "another": string(other), "more": string(whole) + "alert(1);\n",
		"a third value": strings.Replace(string(whole), `("0-0",`, `("0-0","",`, 1), "no base64": "weekbandShard(\"0-0\",\"?\");\n",
		"no deflate": "weekbandShard(\"0-0\",\"////\");\n", "short": "weekbandShard(\"0-0\",\"AwA=\");\n",
		"brackets": "weekbandShard(\"0-0\",\"AwA=\"],[1);\n",
	} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		if _, err := e.At(at); err == nil || !strings.Contains(err.Error(), "0-0.js") || !strings.Contains(err.Error(), "build the edition again") {
			t.Errorf("%s: %v", what, err)
		}
		if _, err := e.Reasons(); err == nil || !strings.Contains(err.Error(), "0-0.js") || strings.Count(err.Error(), "build the edition again") != 1 {
			t.Errorf("%s: reasons: %v", what, err)
		}
	}
	for name, text := range map[string]string{
		"no JSON": "{", "other format": `{"format":99}`, "no grid": `{"format":4,"side":64,"per_day":1}`, "no blocks": `{"format":4}`,
		"years that do not fit": `{"format":4,"side":64,"per_day":1,"years":{"stride":3,"per_degree":10}}`,
	} {
		fsys := fstest.MapFS{lookup.IndexFile: {Data: []byte(text)}}
		if _, err := lookup.Open(fsys); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := lookup.Open(fstest.MapFS{}); err == nil || !strings.Contains(err.Error(), "no edition") {
		t.Errorf("an empty folder: %v", err)
	}
}

func ExampleOpen() {
	_, err := lookup.Open(fstest.MapFS{lookup.IndexFile: {Data: []byte(`{"format": 7}`)}})
	fmt.Println(err)
	// Output: data/lookup.json: format 7, of a newer weekband; this one reads 4: look at it with the newer one, or build the edition again
}

// The typical year of a cell comes back to a tenth of a degree, moved so
// that it crosses on the answer's day.
func TestTypicalYears(t *testing.T) {
	dir := t.TempDir()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	g, err := grid.New(grid.Box{West: -91, South: 37, East: -84, North: 39.5}, 70, 133)
	if err != nil {
		t.Fatal(err)
	}
	fields, err := weeks.Compute(t.Context(), cosines{g}, []status.Window{{ID: "spring", Trigger: crossing.Trigger{Level: 12.5}, Treatment: worth.Usual(60)}}, weeks.Options{Soil: &soil.Air})
	if err != nil {
		t.Fatal(err)
	}
	if err := lookup.Write(root, lookup.Index{}, lookup.Data{Fields: fields}); err != nil {
		t.Fatal(err)
	}
	e, err := lookup.Open(os.DirFS(dir))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []grid.Cell{{Row: 3, Col: 5}, {Row: 69, Col: 132}, {Row: 65, Col: 1}} {
		p := g.Center(c)
		answers, err := e.At(p)
		if err != nil {
			t.Fatal(err)
		}
		var year curve.Year
		if !answers[0].Year(&year) {
			t.Fatalf("%v: no year", c)
		}
		if got := year.At(answers[0].Day); math.Abs(got-12.5) > 1e-9 {
			t.Errorf("%v: %v °C on the crossing day, want 12.5", c, got)
		}
		var months [12]units.Celsius
		for m := range months {
			months[m] = units.Celsius(cosines{g}.month(c, m))
		}
		exact := curve.FromMonths(&months)
		for d := season.Day(1); d < 366; d += 20 {
			if got, want := year.At(d), float64(exact.At(d)); math.Abs(got-want) > 0.15 {
				t.Errorf("%v, %v: %.3f °C, want %.3f", c, d, got, want)
			}
		}
	}
	var year curve.Year
	away, err := e.At(grid.LonLat{Lon: 0, Lat: 38})
	if err != nil || len(away) == 0 || away[0].Year(&year) {
		t.Errorf("off the grid: %v, %v", away, err)
	}
}

// cosines are normals that differ from cell to cell.
type cosines struct{ g grid.Grid }

func (n cosines) month(c grid.Cell, m int) float64 {
	return 11 + float64(c.Col)/40 - float64(c.Row)/30 - 13*math.Cos(2*math.Pi*(float64(m)-0.6)/12)
}

func (n cosines) Grid() grid.Grid { return n.g }
func (n cosines) Layers() int     { return 12 }
func (n cosines) Read(first, rows int, dst *source.Rows) error {
	dst.Reset(12, rows*n.g.Cols())
	for i := range dst.Has {
		dst.Has[i] = true
		for m := range 12 {
			dst.Vals[m][i] = float32(n.month(grid.Cell{Row: first + i/n.g.Cols(), Col: i % n.g.Cols()}, m))
		}
	}
	return nil
}
