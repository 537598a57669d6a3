package recipe_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/crossing"
	"weekband/grid/units"
	"weekband/grid/worth"
	"weekband/render/looks"
	"weekband/render/press"
)

const good = `# a full recipe
title: Spring soil warm-up, Merrow Vale
edition: 2027
normals:
  files: [normals/tavg-*.asc]
  measures: air
  unit: auto
  period: 1991-2020
soil: {depth: 2 in}
windows:
  - id: summer-annuals
    title: Summer annual weeds, spring germination
    threshold: 55 °F
    starts: 50 °F
    direction: warming
    residual: long
  - id: winter-annuals
    title: Winter annual weeds
    threshold: 21.2 C
    direction: cooling
    residual: 45 d
regions: [{file: counties.geojson, id: code, name: name}]
places: places.csv
credits: Invented data
`

func ExampleDecode() {
	_, err := recipe.Decode([]byte("title: Spring\nedition: 2027\nnormals: {files: a.tif}\nwindows:\n- id: spring\n  title: Spring\n  treshold: 55\n"), "vale.yaml")
	fmt.Println(err)
	// Output:
	// vale.yaml:5:5: windows[1] lacks the key threshold: want a temperature with its unit, such as 55 °F or 12.8 °C
	// vale.yaml:7:3: unknown key "treshold" in windows[1]; did you mean "threshold"?
}

func TestDecode(t *testing.T) {
	r, err := recipe.Decode([]byte(good), "good.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if r.Title != "Spring soil warm-up, Merrow Vale" || r.Edition != 2027 || r.Normals.Files[0] != "normals/tavg-*.asc" {
		t.Errorf("read %+v", r)
	}
	if math.Abs(float64(r.Soil.Depth)-0.0508) > 1e-12 {
		t.Errorf("depth %v m", r.Soil.Depth)
	}
	first, second := r.Windows[0], r.Windows[1]
	if math.Abs(float64(first.Trigger.Level)-115.0/9) > 1e-12 || first.Starts.Level != 10 || first.Treatment != worth.Usual(worth.Long) {
		t.Errorf("first window %+v", first)
	}
	if second.Trigger.Direction != crossing.Cooling || second.Treatment.HalfLife != 45 {
		t.Errorf("second window %+v", second)
	}
	if want := units.Celsius(21.2 + 25.0/9); math.Abs(float64(second.Starts.Level-want)) > 1e-9 {
		t.Errorf("a cooling window starts at %v by default, want %v", second.Starts.Level, want)
	}
	if len(r.Regions) != 1 || r.Regions[0].ID != "code" || r.Places != "places.csv" {
		t.Errorf("regions %+v, places %q", r.Regions, r.Places)
	}
}

func TestPaper(t *testing.T) {
	for words, want := range map[string]press.PaperSize{"": press.Letter, "paper: letter\n": press.Letter, "paper: a4\n": press.A4} {
		r, err := recipe.Decode([]byte(words+good), "good.yaml")
		if err != nil || r.Paper != want {
			t.Errorf("%q: %v, %v, want %v", words, r, err, want)
		}
	}
}

func TestLooks(t *testing.T) {
	for words, want := range map[string]recipe.Looks{
		"": {Size: 1200, Palette: looks.Wheatnight}, "size: 800\npalette: wheatnight\n": {Size: 800},
		"size: 2400\npalette: millpond\nlogo: pictures/crest.png\n": {Size: 2400, Palette: looks.Millpond, Logo: "pictures/crest.png"},
	} {
		r, err := recipe.Decode([]byte(words+good), "good.yaml")
		if err != nil || r.Size != want.Size || r.Palette != want.Palette || r.Logo != want.Logo {
			t.Errorf("%q: %+v, %v", words, r, err)
		}
	}
}

func TestSoilNone(t *testing.T) {
	r, err := recipe.Decode([]byte(strings.Replace(good, "soil: {depth: 2 in}", "soil: none", 1)), "good.yaml")
	if err != nil || !r.Soil.None {
		t.Errorf("soil %+v, %v", r, err)
	}
}

// Each wrong recipe must be refused with the place and these words.
func TestRefusals(t *testing.T) {
	cases := []struct{ name, from, to, want string }{
		{"unit left out", "threshold: 55 °F", "threshold: 55", `13:16: threshold: temperature "55" has no unit; write 55 °F or 55 °C`},
		{"unknown unit", "threshold: 55 °F", "threshold: 55 R", `has the unit "R"; want °F, °C or K`},
		{"implausible", "threshold: 55 °F", "threshold: 55 °C", "is the unit right?"},
		{"unknown top key", "places:", "plaices:", `23:1: unknown key "plaices" in the recipe; did you mean "places"?`},
		{"unknown key with no neighbour", "places:", "zzzzzzzzzz:", "valid are address, credits, dates, earlier, edition"},
		{"unknown nested key", "measures: air", "mesures: air", `did you mean "measures"?`},
		{"wrong word", "direction: warming", "direction: rising", `direction "rising": want cooling or warming`},
		{"near word", "direction: warming", "direction: warmin", `did you mean "warming"?`},
		{"key twice", "places: places.csv", "places: a\nplaces: b", `key "places" stands twice`},
		{"id twice", "id: winter-annuals", "id: summer-annuals", "stands twice"},
		{"id names files", "id: winter-annuals", "id: ../winter", "it names files"},
		{"starts past", "starts: 50 °F", "starts: 60 °F", "lies past the threshold"},
		{"residual", "residual: 45 d", "residual: 45", "want short, medium, long"},
		{"no title", "title: Spring soil warm-up, Merrow Vale\n", "", "lacks the key title"},
		{"no files", "files: [normals/tavg-*.asc]\n  ", "", "normals lacks the key files"},
		{"files and sites", "  measures: air", "  sites: s.csv\n  values: v.csv", "both files and sites"},
		{"sites without values", "files: [normals/tavg-*.asc]", "sites: s.csv", "belong together"},
		{"edition", "edition: 2027", "edition: next", `edition "next": want a year`},
		{"list where a value belongs", "places: places.csv", "places: [a, b]", "want one value, found a list"},
		{"value where a mapping belongs", "soil: {depth: 2 in}", "soil: [4 in]", "want keys with values"},
		{"tab", "  files:", "\tfiles:", "not valid YAML"},
		{"depth", "depth: 2 in", "depth: 2", "want a number with in"},
		{"box of three", "places: places.csv", "grid: {box: [1, 2, 3]}", "box of 3 numbers: want [west, south, east, north]"},
		{"inset without box", "places: places.csv", "insets: [{title: Isles}]", "insets[1] lacks the key box"},
		{"inset without title", "places: places.csv", "insets: [{box: [1, 2, 3, 4]}]", "insets[1] lacks the key title"},
		{"insets overlap", "places: places.csv", "insets: [{title: A, box: [1, 2, 3, 4]}, {title: B, box: [2, 3, 5, 6]}]", `the box of "B" overlaps that of "A"`},
		{"five insets", "places: places.csv", "insets: [{title: A, box: [1, 1, 2, 2]}, {title: B, box: [2, 2, 3, 3]}, {title: C, box: [3, 3, 4, 4]}, {title: D, box: [4, 4, 5, 5]}, {title: E, box: [5, 5, 6, 6]}]", "5 insets; want at most 4"},
		{"relief", "places: places.csv", "relief: yes", `relief "yes": want off or on`},
		{"box upside down", "places: places.csv", "grid: {box: [1, 4, 3, 2]}", "must rise"},
		{"language", "places: places.csv", "language: la", `language "la": there is en (English) only`},
		{"dates", "places: places.csv", "dates: year-first", `dates "year-first": want day-first or month-first`},
		{"paper", "places: places.csv", "paper: a5", `paper "a5": want a4 or letter; did you mean "a4"?`},
		{"size in words", "places: places.csv", "size: large", `size "large": want a whole number from 800 to 2400`},
		{"half a pixel", "places: places.csv", "size: 1200.5", `size "1200.5": want a whole number`},
		{"too narrow", "places: places.csv", "size: 799", `size "799": want a whole number from 800`},
		{"too wide", "places: places.csv", "size: 2401", "to 2400"},
		{"palette", "places: places.csv", "palette: milpond", `palette "milpond": want millpond or wheatnight; did you mean "millpond"?`},
		{"two logos", "places: places.csv", "logo: [a.png, b.png]", "logo: want one value, found a list"},
		{"cell without unit", "places: places.csv", "grid: {cell: 4}", "want a number with km"},
		{"unit of the data", "unit: auto", "unit: Celsius", "want auto, C, F, K"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(good, c.from, c.to, 1)
			if text == good {
				t.Fatalf("the recipe has no %q", c.from)
			}
			_, err := recipe.Decode([]byte(text), "bad.yaml")
			if err == nil {
				t.Fatal("no error")
			}
			if _, ok := errors.AsType[*recipe.Problems](err); !ok {
				t.Errorf("%T is no *Problems", err)
			}
			if !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "bad.yaml:") {
				t.Errorf("got:\n%v\nwant it to hold %q", err, c.want)
			}
		})
	}
}

func TestOrderOfDates(t *testing.T) {
	for lines, want := range map[string]string{
		"": "Mar 12–18", "dates: month-first": "Mar 12–18", "dates: day-first": "12–18 Mar", "language: en\ndates: day-first": "12–18 Mar",
	} {
		r, err := recipe.Decode([]byte(good+lines+"\n"), "x.yaml")
		if err != nil {
			t.Fatalf("%q: %v", lines, err)
		}
		if got := r.Language.Week(11); got != want || r.Language.Tag != "en" {
			t.Errorf("%q: week 11 is %q in %s, want %q", lines, got, r.Language.Tag, want)
		}
	}
}

func TestAllProblemsAtOnceCappedAndCounted(t *testing.T) {
	var b strings.Builder
	b.WriteString(good)
	for i := range 30 {
		fmt.Fprintf(&b, "wrong%d: x\n", i)
	}
	_, err := recipe.Decode([]byte(b.String()), "bad.yaml")
	if err == nil || strings.Count(err.Error(), "unknown key") != 20 || !strings.HasSuffix(err.Error(), "and 10 more") {
		t.Errorf("got %v", err)
	}
}

func TestEmptyAndForeignText(t *testing.T) {
	for _, text := range []string{"", "# only a comment\n", "- a\n- b\n", "just words", "\x00\x01", "a: b\n---\nc: d\n", "title: &x y\nedition: *x\n"} {
		if r, err := recipe.Decode([]byte(text), "x.yaml"); err == nil {
			t.Errorf("%q was read as %+v", text, r)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(good)
	f.Add("windows: [{}]")
	f.Add("normals:\n- x")
	f.Fuzz(func(t *testing.T, text string) {
		r, err := recipe.Decode([]byte(text), "fuzz.yaml")
		if (r == nil) == (err == nil) {
			t.Errorf("%q: recipe %v, error %v", text, r, err)
		}
	})
}

// What was repaired is noted, and what is wrong beside is found at its place.
func TestEndsOfLinesAndMarks(t *testing.T) {
	for text, want := range map[string]string{
		good:                                   "",
		"\ufeff" + good:                        "r.yaml: left out the byte order mark at its beginning",
		strings.ReplaceAll(good, "\n", "\r\n"): "r.yaml: took CR LF for the ends of lines",
		strings.ReplaceAll(good, "\n", "\r"):   "r.yaml: took CR for the ends of lines",
	} {
		r, err := recipe.Decode([]byte(text), "r.yaml")
		if err != nil || strings.Join(r.Notes, "|") != want || r.Credits != "Invented data" {
			t.Errorf("%v, %v; want %q", r, err, want)
		}
		_, err = recipe.Decode([]byte(strings.Replace(text, "55 °F", "55 R", 1)), "r.yaml")
		if err == nil || !strings.HasPrefix(err.Error(), "r.yaml:13:16: ") {
			t.Errorf("%q: %v", want, err)
		}
		problems, ok := errors.AsType[*recipe.Problems](err)
		if !ok || problems.Understood == nil || problems.Understood.Places != "places.csv" {
			t.Errorf("%q: what was understood is %+v", want, problems)
		}
	}
}
