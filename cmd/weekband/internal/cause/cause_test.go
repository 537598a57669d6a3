package cause_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"weekband/cmd/weekband/internal/cause"
	"weekband/cmd/weekband/internal/publish"
	"weekband/grid/crossing"
)

var pairs = [][2]string{{"spring", "spring"}}

// older is the manifest of an edition that tells neither roles nor settings.
func older() *cause.Manifest {
	return &cause.Manifest{
		Program: "weekband", Version: "0.1.0", Title: "Merrow Vale", Edition: 2027, Period: "1991-2020", Grid: "5 rows × 7 columns",
		Unit: "C: told by the file", Soil: "soil at 4 in (10 cm)", Calibration: "us: 77 stations",
		Inputs: []cause.Input{{Name: "(recipe)", SHA256: "r1"}, {Name: "normals.tif", SHA256: "n1"}, {Name: "counties.geojson", SHA256: "c1"}},
		Windows: []cause.Window{{
			ID: "spring", Title: "Spring", Threshold: 12.7778, Starts: 10, Direction: crossing.Warming, HalfLife: 60, Q10: 2, Reference: 20, Ahead: 21, Floor: 0.25,
		}},
	}
}

// newer tells both.
func newer() *cause.Manifest {
	m := older()
	m.Inputs = []cause.Input{
		{Name: "(recipe)", SHA256: "r1", Role: "recipe"}, {Name: "normals.tif", SHA256: "n1", Role: "normals"}, {Name: "counties.geojson", SHA256: "c1", Role: "regions"},
	}
	m.Recipe = map[string]string{"title": "Merrow Vale", "soil.depth": "4 in", "soil.calibration": "us", "normals.files": "normals.tif", "windows[spring].threshold": "55 °F"}
	return m
}

func ExampleBetween() {
	a, b := newer(), newer()
	b.Period, b.Inputs[1] = "2001-2030", cause.Input{Name: "new.tif", SHA256: "n2", Role: "normals"}
	b.Recipe["soil.depth"], b.Recipe["title"] = "2 in", "Merrow"
	for _, c := range cause.Between(a, b, pairs) {
		fmt.Println(c.Moves, c.Text)
	}
	fmt.Println(cause.Sentence(cause.Between(a, b, pairs)))
	// Output:
	// true other normals: 2001-2030 in place of 1991-2020; new.tif in place of normals.tif
	// true another recipe: soil.depth from 4 in to 2 in
	// false other settings: title
	// other normals and another depth of soil
}

func TestBetween(t *testing.T) {
	for name, c := range map[string]struct {
		from   func() *cause.Manifest
		change func(*cause.Manifest)
		want   []string // with ! in front of those that can move a week
	}{
		"nothing":     {older, func(*cause.Manifest) {}, nil},
		"same, newer": {newer, func(*cause.Manifest) {}, nil},
		"version":     {newer, func(m *cause.Manifest) { m.Version = "0.2.0" }, []string{"!another version of weekband: 0.2.0 in place of 0.1.0"}},
		"normals without roles": {older, func(m *cause.Manifest) { m.Inputs[1].SHA256, m.Inputs[0].SHA256 = "n2", "r2" },
			[]string{"!other input files: normals.tif with other contents"}},
		"normals of another period without roles": {older, func(m *cause.Manifest) { m.Inputs[1].SHA256, m.Period = "n2", "2001-2030" },
			[]string{"!other normals: 2001-2030 in place of 1991-2020; normals.tif with other contents"}},
		"only renamed":    {newer, func(m *cause.Manifest) { m.Inputs[1].Name, m.Recipe["normals.files"] = "tavg.tif", "tavg.tif" }, []string{"other settings: normals.files"}},
		"only the period": {older, func(m *cause.Manifest) { m.Period = "1991–2020" }, []string{"another period of the same normals, as printed: 1991–2020 in place of 1991-2020"}},
		"outlines":        {newer, func(m *cause.Manifest) { m.Inputs[2].SHA256 = "c2" }, []string{"other outlines of regions: counties.geojson with other contents"}},
		"terrain added": {newer, func(m *cause.Manifest) {
			m.Inputs = append(m.Inputs, cause.Input{Name: "dem.tif", SHA256: "d", Role: "terrain"})
			m.Recipe["terrain"] = "dem.tif"
		}, []string{"!other terrain: dem.tif added"}},
		"calibration":        {newer, func(m *cause.Manifest) { m.Calibration, m.Recipe["soil.calibration"] = "", "none" }, []string{"!another calibration: none in place of us: 77 stations"}},
		"depth, older":       {older, func(m *cause.Manifest) { m.Soil = "soil at 2 in (5 cm)" }, []string{"!another recipe: soil.depth from 4 in (10 cm) to 2 in (5 cm)"}},
		"air, older":         {older, func(m *cause.Manifest) { m.Soil = "air" }, []string{"!another recipe: soil from soil at 4 in (10 cm) to air"}},
		"threshold, older":   {older, func(m *cause.Manifest) { m.Windows[0].Threshold = 15 }, []string{"!another recipe: windows[spring].threshold from 55 °F (12.8 °C) to 59 °F (15 °C)"}},
		"half-life, older":   {older, func(m *cause.Manifest) { m.Windows[0].HalfLife = 30 }, []string{"another recipe: windows[spring].residual from 60 d to 30 d"}},
		"unit, older":        {older, func(m *cause.Manifest) { m.Unit = "0.1C: told by the values" }, []string{"!another recipe: normals.unit from C to 0.1C"}},
		"set and unset":      {newer, func(m *cause.Manifest) { delete(m.Recipe, "soil.depth"); m.Recipe["grid.cell"] = "4 km" }, []string{"!another recipe: grid.cell set to 4 km", "!another recipe: soil.depth no longer set to 4 in"}},
		"something unknown":  {older, func(m *cause.Manifest) { m.Inputs[0].SHA256 = "r2" }, []string{"!perhaps another recipe: its file differs, in a way that these manifests do not tell"}},
		"one tells settings": {newer, func(m *cause.Manifest) { m.Recipe, m.Soil = nil, "soil at 2 in" }, []string{"!another recipe: soil.depth from 4 in (10 cm) to 2 in"}},
		"starts and looks": {newer, func(m *cause.Manifest) {
			m.Recipe["size"], m.Recipe["windows[spring].starts"], m.Recipe["windows[fall].threshold"] = "800", "48 °F", "70 °F"
		},
			[]string{"another recipe: windows[spring].starts set to 48 °F", "other settings: size"}},
		"one tells roles": {older, func(m *cause.Manifest) {
			*m = *newer()
			m.Inputs[0] = cause.Input{Name: "vale.yaml", SHA256: "r2", Role: "recipe"}
		},
			[]string{"!perhaps another recipe: its file differs, in a way that these manifests do not tell"}},
		"many files": {older, func(m *cause.Manifest) {
			m.Inputs = m.Inputs[:1]
			for i := range 12 {
				m.Inputs = append(m.Inputs, cause.Input{Name: fmt.Sprintf("t%02d.asc", i+1), SHA256: fmt.Sprint(i)})
			}
		}, []string{"!other input files: t01.asc, t02.asc and 10 more in place of normals.tif, counties.geojson"}},
	} {
		a, b := c.from(), c.from()
		c.change(b)
		var got []string
		for _, k := range cause.Between(a, b, pairs) {
			mark := ""
			if k.Moves {
				mark = "!"
			}
			got = append(got, mark+k.Text)
		}
		if strings.Join(got, "\n") != strings.Join(c.want, "\n") {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// A window that has another id is compared with its own, and called as in the
// newer edition.
func TestPairedWindows(t *testing.T) {
	a, b := newer(), newer()
	a.Recipe = map[string]string{"windows[crab].id": "crab", "windows[crab].threshold": "55 °F"}
	b.Recipe = map[string]string{"windows[spring].id": "spring", "windows[spring].threshold": "56 °F"}
	got := cause.Between(a, b, [][2]string{{"crab", "spring"}})
	if len(got) != 1 || got[0].Text != "another recipe: windows[spring].threshold from 55 °F to 56 °F" {
		t.Errorf("%+v", got)
	}
}

func TestReadRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"": "this is no edition that weekband built", "{": "build the edition again",
		`{"program":"other","windows":[{"id":"a"}]}`: `program "other"`, `{"program":"weekband"}`: "0 windows",
		`{"program":"weekband","windows":[{"id":"a","direction":"sideways"}]}`: "sideways",
	} {
		fsys := fstest.MapFS{}
		if text != "" {
			fsys[publish.Marker] = &fstest.MapFile{Data: []byte(text)}
		}
		if _, err := cause.Read(fsys); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
	m, err := cause.Read(fstest.MapFS{publish.Marker: {Data: []byte(`{"program":"weekband","windows":[{"id":"a","threshold_c":10,"direction":"cooling"}],"new_key":{}}`)}})
	if w, ok := m.WindowByID("a"); err != nil || !ok || w.Direction != crossing.Cooling {
		t.Errorf("%+v, %v", m, err)
	}
}
