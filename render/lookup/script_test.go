package lookup_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/oracle"
	"weekband/regions/places"
)

// spot is a position as the page's scripts take it.
type spot struct {
	Lat float64 `json:"lat"`
	Lon float64 `json:"lon"`
}

// placeLine is a place as the scripts take it.
type placeLine struct {
	Name   string  `json:"name"`
	Lat    float64 `json:"lat"`
	Lon    float64 `json:"lon"`
	Code   string  `json:"code"`
	Region string  `json:"region"`
	Rank   int     `json:"rank"`
}

type asked struct {
	Root    string      `json:"root,omitempty"`
	Spots   []spot      `json:"spots,omitempty"`
	Queries []string    `json:"queries,omitempty"`
	List    []placeLine `json:"list,omitempty"`
}

type pageAnswer struct {
	Cells []struct {
		Windows []struct {
			Reason                       string
			Beyond                       bool
			Day, From, To, Spread, Error float64
		}
		Region int
		Months []float64
		Year   []float64
		Area   *struct{ Name, ID, Slug string }
	}
	Found []struct {
		Found []placeLine
		Exact bool
	}
	Typed [][]struct {
		Name  string
		Exact bool
	}
	Problem string
}

// page runs the scripts of the page with node.
func page(t *testing.T, a asked) (out pageAnswer) {
	t.Helper()
	var script bytes.Buffer
	script.WriteString("\"use strict\";\n")
	for _, name := range []string{"../site/script/shards.js", "../site/script/curve.js", "../site/script/find.js", "../site/script/edition.js", "testdata/page.js"} {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		script.Write(text)
	}
	in, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(oracle.Run(t, in, "node", "-e", script.String()), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// The page reads of every cell exactly what Go does: small editions kept fine
// with a year a cell, and large ones kept coarse with a year a square.
func TestScriptReadsTheSameCells(t *testing.T) {
	oracle.Need(t, "node")
	rng := rand.New(rand.NewPCG(5, 6))
	for _, size := range [][2]int{{70, 133}, {401, 301}} {
		f, dir := fieldOf(t, size[0], size[1]), t.TempDir()
		e := write(t, dir, data(f))
		a := asked{Root: dir + "/"}
		for range 240 {
			c := grid.Cell{Row: rng.IntN(size[0]), Col: rng.IntN(size[1])}
			p := f.Grid().Center(c)
			a.Spots = append(a.Spots, spot{Lat: p.Lat, Lon: p.Lon})
		}
		a.Spots = append(a.Spots, spot{Lat: 37, Lon: -84}, spot{Lat: 39.5, Lon: -91}, spot{Lat: 39.51, Lon: -90})
		got := page(t, a)
		if got.Problem != "" || len(got.Cells) != len(a.Spots) {
			t.Fatalf("%v: %d cells, %s", size, len(got.Cells), got.Problem)
		}
		years, regions := 0, map[string]int{}
		for i, s := range a.Spots {
			p := grid.LonLat{Lon: s.Lon, Lat: s.Lat}
			answers, err := e.At(p)
			if err != nil {
				t.Fatal(err)
			}
			theirs := &got.Cells[i]
			for k, w := range theirs.Windows {
				o := &answers[k]
				from, to := float64(o.Calendar.OntimeFrom), float64(o.Calendar.CatchupTo)
				if w.Reason != o.Reason.String() || w.Beyond != o.Beyond || w.Day != float64(o.Day) || w.From != from || w.To != to || w.Spread != o.Spread || w.Error != o.Error {
					t.Fatalf("%v, %v: script %+v, ours %+v", size, p, w, *o)
				}
			}
			var year curve.Year
			still := answers[0]
			still.Reason = crossing.NoData // without a day a year is not moved
			ok := still.Year(&year)
			if ok != (theirs.Months != nil) || ok != (len(theirs.Year) == 365) {
				t.Fatalf("%v, %v: year %v, script %v", size, p, ok, theirs.Months)
			}
			for d, v := range theirs.Year {
				if math.Abs(v-year[d]) > 1e-9 {
					t.Fatalf("%v, %v, day %d: %v °C, ours %v", size, p, d+1, v, year[d])
				}
			}
			if ok {
				years++
			}
			name := ""
			if theirs.Area != nil {
				name = theirs.Area.Name
			}
			regions[name]++
			if want := regionNamed(f.Grid(), p); answers[0].Reason != crossing.NoData && name != want {
				t.Errorf("%v, %v: region %q, want %q", size, p, name, want)
			}
		}
		if years < 120 || regions["Region 0"] < 12 || regions["Region 1"] < 12 || regions[""] < 12 {
			t.Errorf("%v: cells are one-sided: %d years, %v", size, years, regions)
		}
	}
}

// regionNamed says which region of data covers most of the cell of a point, by
// the overlap of rectangles; the first of those that cover as much.
func regionNamed(g grid.Grid, p grid.LonLat) string {
	cell, ok := g.Locate(p)
	if !ok {
		return ""
	}
	p = g.Center(cell)
	overlap := func(low, high, middle, step float64) float64 {
		return max(0, min(high, middle+step/2)-max(low, middle-step/2)) / step
	}
	name, most := "", 1e-9
	for i, box := range []grid.Box{northWest, allAround} {
		share := overlap(box.West, box.East, p.Lon, g.StepLon()) * overlap(box.South, box.North, p.Lat, g.StepLat())
		if share > most+1e-9 {
			name, most = fmt.Sprint("Region ", i), share
		}
	}
	return name
}

// What a reader types finds the same places in the same order.
func TestScriptFindsTheSamePlaces(t *testing.T) {
	oracle.Need(t, "node")
	list := data(field(t)).Places
	queries := []string{"lowen", "LOWEN", "low", "upper", "aldw", "elm", "élmere", "elmre", "leowen", "край", "кар", "кари", "M1 7", "m", "", "zzzz", "saint adlwyn", "elmerten", "é", "o"}
	sameSearch(t, list, queries)
}

// The same on a country's postal codes.
func TestScriptFindsTheSamePostalCodes(t *testing.T) {
	oracle.Need(t, "node")
	list, queries := postalCodes(t, 1000)
	sameSearch(t, list, queries)
}

func sameSearch(t *testing.T, list []places.Place, queries []string) {
	t.Helper()
	a := asked{Queries: queries}
	for _, p := range list {
		a.List = append(a.List, lineOf(p))
	}
	got, some := page(t, a), 0
	for i, q := range queries {
		found, exact := places.Find(list, q)
		var want []placeLine
		for _, p := range found {
			want = append(want, lineOf(p))
		}
		if !slices.Equal(got.Found[i].Found, want) || got.Found[i].Exact != exact {
			t.Errorf("%q: script %.200v, %v; ours %.200v, %v", q, got.Found[i].Found, got.Found[i].Exact, want, exact)
		}
		some += min(len(want), 1)
	}
	if some < len(queries)/2 {
		t.Errorf("only %d of %d queries find anything", some, len(queries))
	}
}

func lineOf(p places.Place) placeLine {
	return placeLine{Name: p.Name, Lat: p.At.Lat, Lon: p.At.Lon, Code: p.Code, Region: p.Region, Rank: p.Rank}
}

// postalCodes returns some of the real postal codes and things to type.
func postalCodes(t *testing.T, most int) (list []places.Place, queries []string) {
	t.Helper()
	f, err := os.Open(oracle.Data(t, "us/zip-centroids.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var text bytes.Buffer
	if _, err := text.ReadFrom(f); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(text.String()), "\n")[1:]
	step := max(1, len(lines)/most)
	for i := 0; i < len(lines); i += step {
		var code string
		var at grid.LonLat
		if _, err := fmt.Sscanf(strings.ReplaceAll(lines[i], ",", " "), "%s %g %g", &code, &at.Lat, &at.Lon); err != nil {
			t.Fatal(err)
		}
		list = append(list, places.Place{Name: "ZIP " + code, Code: code, At: at})
		if i%(25*step) == 0 {
			queries = append(queries, code, code[:3], "zip "+code[:4], code[1:2]+code[:1]+code[2:]+"0", "zpi "+code)
		}
	}
	return list, queries
}
