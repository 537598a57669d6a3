package render_test

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/oracle"
	"weekband/render"
	"weekband/render/plane"
)

// The place in the middle of a map, asked back and forth.
func ExampleMap_Sight() {
	page := must(must(render.NewAtlas(merrow.territory(), 900)).Bands(merrow.bandMap(8)))
	sight := page.Sight()
	middle := page.Layout.Frame.Center()
	where, _ := page.Position(middle)
	at, _ := page.Spot(where)
	fmt.Println(len(sight.Frames), "map;", math.Round(at.X-middle.X), math.Round(at.Y-middle.Y), "px off")
	// Output: 1 map; 0 0 px off
}

// boxed is a territory that is one box, in the projection chosen for it.
func boxed(b grid.Box) render.Territory {
	shape := orb.MultiPolygon{{{{b.West, b.South}, {b.East, b.South}, {b.East, b.North}, {b.West, b.North}, {b.West, b.South}}}}
	return render.Territory{Extent: b, Regions: []render.Region{{Shape: shape}}}
}

// sights are pages in all projections, with and without insets, two of them
// across the antimeridian or a pole.
func sights() map[string]*render.Map {
	pages := map[string]*render.Map{}
	for name, t := range map[string]render.Territory{
		"cone": merrow.territory(), "round": skerry.territory(), "insets": merrow.spread(), "narrow insets": skerry.spread(),
		"half a continent": boxed(grid.Box{West: -125, South: 24, East: -66, North: 50}), "world": boxed(grid.Box{West: -180, South: -60, East: 180, North: 85}),
		"cylinder": boxed(grid.Box{West: 96, South: -11, East: 141, North: 6}), "antimeridian": boxed(grid.Box{West: 165, South: -50, East: 190, North: -30}),
		"pole": boxed(grid.Box{West: -180, South: 55, East: 180, North: 90}), "near the pole": boxed(grid.Box{West: 10, South: 74, East: 34, North: 81}),
		"small": boxed(grid.Box{West: 5, South: 47, East: 5.4, North: 47.2}),
	} {
		width := 1200
		if name == "narrow insets" {
			width = 375
		}
		pages[name] = must(must(render.NewAtlas(t, width)).Bands(overFar(merrow.bandMap(6))))
	}
	return pages
}

type sightCase struct {
	Sight     json.RawMessage `json:"sight"`
	Places    [][2]float64    `json:"places"`
	Positions [][2]float64    `json:"positions"`
}

type sightReply struct {
	Positions []*struct{ Lon, Lat float64 }
	Places    []*struct{ X, Y float64 }
}

// The page's script finds positions and places where Go does, which knows the
// projections themselves: within 0.3 pixels, at hundreds of random places.
func TestSightOfScript(t *testing.T) {
	oracle.Need(t, "node")
	rng := rand.New(rand.NewPCG(5, 7))
	pages := sights()
	var names []string
	var cases []sightCase
	for _, name := range slices.Sorted(maps.Keys(pages)) {
		p := pages[name]
		c := sightCase{Sight: jsonOf(t, p.Sight())}
		for range 500 {
			at := plane.Pixel{X: p.Layout.Width * rng.Float64(), Y: p.Layout.Height * rng.Float64()}
			if n := len(p.Layout.Insets); n > 0 && rng.IntN(2) == 0 {
				b := p.Layout.Insets[rng.IntN(n)].Grow(2)
				at = plane.Pixel{X: b.Left + b.Width()*rng.Float64(), Y: b.Top + b.Height()*rng.Float64()}
			}
			c.Places = append(c.Places, [2]float64{at.X, at.Y})
			where, ok := p.Position(at)
			if rng.IntN(8) == 0 {
				ok = false
			}
			if !ok {
				where = grid.LonLat{Lon: 360*rng.Float64() - 180, Lat: 180*rng.Float64() - 90}
			}
			c.Positions = append(c.Positions, [2]float64{where.Lon, where.Lat})
		}
		names, cases = append(names, name), append(cases, c)
	}
	for i, reply := range ask(t, cases) {
		page := pages[names[i]]
		off, km, seen := positionsOff(t, names[i], page, cases[i], reply)
		back, found := placesOff(t, names[i], page, cases[i], reply)
		t.Logf("%-17s %d bytes, gzip %d; %d positions: at worst %.3f px, %.3f km; %d places: %.3f px",
			names[i], len(cases[i].Sight), gzipped(t, cases[i].Sight), seen, off, km, found, back)
		if seen < 100 || found < 100 || off > 0.3 || back > 0.3 {
			t.Errorf("%s: %d positions within %.3f px, %d places within %.3f px; want over 100 and 0.3", names[i], seen, off, found, back)
		}
		if n := gzipped(t, cases[i].Sight); n > 6000 {
			t.Errorf("%s: the sight takes %d bytes gzipped, want 6,000", names[i], n)
		}
	}
}

// positionsOff compares the positions of places. Near the end of the earth and
// of frames one side may know none.
func positionsOff(t *testing.T, name string, p *render.Map, c sightCase, r sightReply) (px, km float64, seen int) {
	missed := 0
	for i, at := range c.Places {
		place := plane.Pixel{X: at[0], Y: at[1]}
		want, ok := p.Position(place)
		got := r.Positions[i]
		if ok != (got != nil) {
			missed++
			continue
		}
		if !ok {
			continue
		}
		seen++
		a, b := want.Globe(), grid.LonLat{Lon: got.Lon, Lat: got.Lat}.Globe()
		km = max(km, a.Distance(&b))
		there, ok := p.Spot(grid.LonLat{Lon: got.Lon, Lat: got.Lat})
		if !ok { // ground of an inset where the main map is empty
			continue
		}
		if d := math.Hypot(there.X-place.X, there.Y-place.Y); d < 20 { // else the inset's place
			px = max(px, d)
		} else if len(p.Layout.Insets) == 0 {
			t.Errorf("%s: %v shows %+v, which stands at %v", name, place, *got, there)
		}
	}
	if missed > len(c.Places)/50 {
		t.Errorf("%s: of %d places only one side knows", name, missed)
	}
	return px, km, seen
}

func placesOff(t *testing.T, name string, p *render.Map, c sightCase, r sightReply) (px float64, seen int) {
	missed := 0
	for i, where := range c.Positions {
		want, ok := p.Spot(grid.LonLat{Lon: where[0], Lat: where[1]})
		got := r.Places[i]
		if ok != (got != nil) {
			missed++
			continue
		}
		if ok {
			seen++
			px = max(px, math.Hypot(want.X-got.X, want.Y-got.Y))
		}
	}
	if missed > len(c.Positions)/50 {
		t.Errorf("%s: of %d positions only one side knows the place", name, missed)
	}
	return px, seen
}

// ask runs the script on cases.
func ask(t *testing.T, cases []sightCase) []sightReply {
	t.Helper()
	script := ""
	for _, file := range []string{"site/script/sight.js", "testdata/sight.js"} {
		text, err := os.ReadFile(filepath.FromSlash(file))
		if err != nil {
			t.Fatal(err)
		}
		script += string(text)
	}
	joined := filepath.Join(t.TempDir(), "sight.js")
	if err := os.WriteFile(joined, []byte("'use strict';"+script), 0o600); err != nil {
		t.Fatal(err)
	}
	var replies []sightReply
	if err := json.Unmarshal(oracle.Run(t, jsonOf(t, cases), "node", joined), &replies); err != nil || len(replies) != len(cases) {
		t.Fatalf("%d replies: %v", len(replies), err)
	}
	return replies
}

func jsonOf(t testing.TB, v any) []byte {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func gzipped(t testing.TB, text []byte) int {
	t.Helper()
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	if _, err := w.Write(text); err != nil || w.Close() != nil {
		t.Fatal(err)
	}
	return b.Len()
}

// An inset holds its own ground; the main map has the rest, but nothing under
// the inset.
func TestPositionsInInsets(t *testing.T) {
	page := must(must(render.NewAtlas(merrow.spread(), 900)).Bands(overFar(merrow.bandMap(8))))
	ness := grid.LonLat{Lon: -12, Lat: 31}
	at, ok := page.Spot(ness)
	if !ok || !page.Layout.Insets[0].Contains(at) {
		t.Errorf("Ness stands at %v (%t), want a place in the inset %v", at, ok, page.Layout.Insets[0])
	}
	if back, ok := page.Position(at); !ok || math.Hypot(back.Lon-ness.Lon, back.Lat-ness.Lat) > 1e-6 {
		t.Errorf("there lies %v, want %v", back, ness)
	}
	title := page.Layout.Insets[0]
	if where, ok := page.Position(plane.Pixel{X: title.Left + 1, Y: title.Top + 1}); ok {
		t.Errorf("the title of the inset shows %v", where)
	}
}

// Maps that stand alike have one sight; a title that takes another line moves
// the map, and its sight with it.
func TestSightsOfMapsThatStandAlike(t *testing.T) {
	a := must(render.NewAtlas(merrow.territory(), 900))
	sight := func(change func(*render.BandMap)) string {
		m := merrow.bandMap(8)
		change(&m)
		return string(jsonOf(t, must(a.Bands(m)).Sight()))
	}
	plain := sight(func(*render.BandMap) {})
	if sight(func(m *render.BandMap) { m.Subtitle, m.Grey = "Another window", true }) != plain {
		t.Error("two maps that stand alike have two sights")
	}
	if sight(func(m *render.BandMap) { m.Title += " and all that lies between them and the far shore" }) == plain {
		t.Error("a map lower on its page has the same sight")
	}
}
