package phrase

import (
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/crossing"
	"weekband/grid/surface"
	"weekband/grid/weeks"
	"weekband/render/wording"
)

// asked is a recipe with further lines.
func asked(t *testing.T, normals, lines string) *recipe.Recipe {
	t.Helper()
	r, err := recipe.Decode([]byte("title: Vale\nedition: 2027\nnormals: {files: x"+normals+"}\nwindows: [{id: spring, title: Spring, threshold: 55 F}]\n"+lines), "vale.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// What is measured is air or soil; the depth is said where it is known.
func TestMeasures(t *testing.T) {
	for _, c := range []struct{ normals, lines, want string }{
		{"", "", "soil at 4 in (10 cm)"},
		{"", "soil: {depth: 2 in}\n", "soil at 2 in (5 cm)"},
		{"", "soil: none\n", "air"},
		{", measures: soil", "", "soil"},
		{", measures: soil", "soil: {depth: 8 in}\n", "soil at 8 in (20 cm)"},
	} {
		if got := Measures(asked(t, c.normals, c.lines)); got != c.want {
			t.Errorf("%q %q: %q, want %q", c.normals, c.lines, got, c.want)
		}
	}
}

// surfaceOf are normals on a grid, of which nothing but that is asked.
type surfaceOf struct {
	weeks.Normals
	grid grid.Grid
}

func (s surfaceOf) Grid() grid.Grid { return s.grid }

// How sure days are is told by where soil, normals and spread come from.
func TestSure(t *testing.T) {
	on := func(west float64) surfaceOf {
		g, err := grid.New(grid.Box{West: west, South: 38, East: west + 2, North: 40}, 2, 2)
		if err != nil {
			t.Fatal(err)
		}
		return surfaceOf{grid: g}
	}
	near, far := on(-97), on(100) // of the calibration's stations, all in the United States
	for _, c := range []struct {
		normals, lines string
		in             inputs.Set
		want           []string
	}{
		{", measures: soil", "", inputs.Set{}, []string{"Soil temperatures are the input's own."}},
		{"", "soil: none\n", inputs.Set{}, []string{"Air temperature is mapped as it is"}},
		{"", "soil: {calibration: none}\n", inputs.Set{}, []string{"one general offset of 1.6 °C", "a usual figure, not measured here"}},
		{"", "", inputs.Set{Trained: calibration.US(), Normals: near}, []string{" stations", "a usual figure"}},
		{"", "", inputs.Set{Trained: calibration.US(), Normals: far}, []string{"1.6 °C", "no station"}},
		{"", "soil: none\n", inputs.Set{SD: near, Stations: &surface.Report{}}, []string{"follow from the year-to-year standard deviation of the input", "between stations"}},
	} {
		got := Sure(asked(t, c.normals, c.lines), &c.in)
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%q %q: %q lacks %q", c.normals, c.lines, got, want)
			}
		}
	}
}

// How sure a map is, is the mean error of its ground; where most, not all, of the
// ground is near soil thermometers the share that is not is told.
func TestHowSure(t *testing.T) {
	g, err := grid.New(grid.Box{West: 0, South: -1, East: 4, North: 1}, 2, 4)
	if err != nil {
		t.Fatal(err)
	}
	l := wording.English()
	field := func(beyond int) *weeks.Field {
		f := &weeks.Field{Day: grid.NewRaster[float32](g), Error: grid.NewRaster[float32](g), Reason: grid.NewRaster[crossing.Reason](g), Common: &weeks.Common{Near: grid.NewRaster[float32](g)}}
		for i := range g.Cells() {
			c := grid.Cell{Row: i / 4, Col: i % 4}
			f.Day.Set(c, 100)
			f.Error.Set(c, 5)
			f.Reason.Set(c, crossing.Dated)
			f.Near.Set(c, 1)
			if i < beyond {
				f.Near.Set(c, 0)
			}
		}
		return f
	}
	// The mean absolute error of a normal one is √(2/π) = 0.8 of its standard error.
	all, some := HowSure(l, field(0)), HowSure(l, field(2))
	if want := l.Sentences.Sure.Expected(0.798 * 5); all != want || !strings.Contains(all, "4\u00a0days") {
		t.Errorf("%q, want %q", all, want)
	}
	if !strings.HasPrefix(some, strings.TrimSuffix(all, ".")) || !strings.Contains(some, "25%") {
		t.Errorf("a quarter beyond stations: %q", some)
	}
	if none := HowSure(l, field(8)); strings.Contains(none, "%") {
		t.Errorf("all beyond stations: %q", none)
	}
	unknown := field(0)
	unknown.Error = nil
	if got := HowSure(l, unknown); got != "" {
		t.Errorf("nothing known: %q", got)
	}
}
