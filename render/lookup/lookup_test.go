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

// field is a made-up field on a lopsided grid of several tiles.
func field(t testing.TB) *weeks.Field {
	t.Helper()
	g, err := grid.New(grid.Box{West: -91, South: 37, East: -84, North: 39.5}, 70, 133)
	if err != nil {
		t.Fatal(err)
	}
	f := &weeks.Field{
		Window: status.Window{ID: "spring", Title: "Spring", Trigger: crossing.Trigger{Level: 12.5}, AheadDays: 21},
		Cut:    300, Reason: grid.NewRaster[crossing.Reason](g), Day: grid.NewRaster[float32](g),
		Spread: grid.NewRaster[float32](g), OntimeFrom: grid.NewRaster[float32](g), CatchupTo: grid.NewRaster[float32](g),
	}
	for row := range 70 {
		for col := range 133 {
			c := grid.Cell{Row: row, Col: col}
			switch {
			case row < 64 && col >= 64 && col < 128: // a tile of sea
			case row == col:
				f.Reason.Set(c, crossing.Always)
			default:
				f.Reason.Set(c, crossing.Dated)
				day := float32(row+col) + 300.25
				f.Day.Set(c, day)
				f.OntimeFrom.Set(c, day-26.5)
				f.CatchupTo.Set(c, day+41)
				f.Spread.Set(c, 11)
			}
		}
	}
	return f
}

func edition(t testing.TB) (*lookup.Edition, string) {
	t.Helper()
	dir := t.TempDir()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	x := lookup.Index{Title: "T", Edition: 2027, Measures: "soil", Places: []lookup.Place{{Name: "Lowen", Lat: 38, Lon: -90}}}
	if err := lookup.Write(root, x, []*weeks.Field{field(t)}); err != nil {
		t.Fatal(err)
	}
	e, err := lookup.Open(os.DirFS(dir))
	if err != nil {
		t.Fatal(err)
	}
	return e, dir
}

func TestWhatIsWrittenIsRead(t *testing.T) {
	e, _ := edition(t)
	f := field(t)
	for row := 0; row < 70; row += 3 {
		for col := range 133 {
			c := grid.Cell{Row: row, Col: col}
			answers, err := e.At(f.Grid().Center(c))
			if err != nil {
				t.Fatal(err)
			}
			a := answers[0]
			reason, _ := f.Reason.At(c)
			if a.Reason != reason {
				t.Fatalf("%v: %v, want %v", c, a.Reason, reason)
			}
			cal, ok := f.Calendar(c)
			if !ok {
				if a.Calendar != (status.Calendar{}) {
					t.Fatalf("%v: a calendar without a crossing", c)
				}
				continue
			}
			near := func(a, b season.Day) bool { return math.Abs(float64(a-b)) < 0.0501 }
			if !near(a.Calendar.AheadFrom, cal.AheadFrom) || !near(a.Calendar.OntimeFrom, cal.OntimeFrom) ||
				!near(a.Day, cal.OntimeTo) || !near(a.Calendar.CatchupTo, cal.CatchupTo) || a.Spread != 11 {
				t.Fatalf("%v: %+v, want %+v", c, a, cal)
			}
		}
	}
}

func TestOffTheGridThereIsNoData(t *testing.T) {
	e, _ := edition(t)
	for _, p := range []grid.LonLat{{Lon: -91.01, Lat: 38}, {Lon: -85, Lat: 40}, {}} {
		answers, err := e.At(p)
		if err != nil || len(answers) != 1 || answers[0].Reason != crossing.NoData {
			t.Errorf("%v: %+v, %v", p, answers, err)
		}
	}
}

func TestDamagedEditionsAreRefused(t *testing.T) {
	e, dir := edition(t)
	at := field(t).Grid().Center(grid.Cell{Row: 1, Col: 5})
	if err := os.WriteFile(dir+"/data/lookup/spring/0-0.bin", []byte("cut"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := e.At(at); err == nil || !strings.Contains(err.Error(), "build the edition again") {
		t.Errorf("a cut tile: %v", err)
	}
	for name, text := range map[string]string{
		"no JSON": "{", "other format": `{"format":99}`, "no grid": `{"format":2,"tile":64}`, "no tiles": `{"format":2}`,
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
	// Output: data/lookup.json: format 7, this weekband reads 2; build the edition again
}

// The typical year of a cell comes back to a hundredth of a degree, moved so
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
	if err := lookup.Write(root, lookup.Index{}, fields); err != nil {
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
		if ok, err := e.Year(p, &answers[0], &year); !ok || err != nil {
			t.Fatalf("%v: %v, %v", c, ok, err)
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
			if got, want := year.At(d), float64(exact.At(d)); math.Abs(got-want) > 0.03 {
				t.Errorf("%v, %v: %.3f °C, want %.3f", c, d, got, want)
			}
		}
	}
	var year curve.Year
	if ok, err := e.Year(grid.LonLat{Lon: 0, Lat: 38}, &lookup.Answer{}, &year); ok || err != nil {
		t.Errorf("off the grid: %v, %v", ok, err)
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
