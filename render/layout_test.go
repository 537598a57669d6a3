package render_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/oracle"
	"weekband/regions"
	"weekband/regions/polygons"
	"weekband/render"
	"weekband/render/plane"
	"weekband/render/press"
)

// checkLayout looks at every text's box: all lie on the page, those of the map
// in its frame and on none of each other, the others off the frame.
func checkLayout(t *testing.T, name string, l press.Layout) {
	t.Helper()
	page := plane.Rect{Right: l.Width, Bottom: l.Height}
	if !l.Frame.Within(page) || !l.Legend.Within(page) || l.Frame.Overlaps(l.Legend) {
		t.Errorf("%s: frame %v and legend %v on a page of %g × %g", name, l.Frame, l.Legend, l.Width, l.Height)
	}
	for i, b := range l.Boxes {
		if strings.TrimSpace(b.Text) == "" || !b.Within(page) {
			t.Errorf("%s: %q at %v leaves the page", name, b.Text, b.Rect)
		}
		if size := b.Height() / 1.15; size < 10.99 { // ascent and descent are 1.15 sizes
			t.Errorf("%s: %q is set at %.1f px", name, b.Text, size)
		}
		onMap := b.Kind >= press.RegionLabel
		for _, inset := range l.Insets {
			if b.Within(inset) && (b.Kind == press.RegionLabel || b.Kind == press.PlaceLabel || b.Kind == press.InsetText) {
				onMap, b.Kind = inset.Within(l.Frame), press.InsetText
			}
		}
		switch {
		case onMap && !b.Within(l.Frame):
			t.Errorf("%s: %q at %v leaves the map %v", name, b.Text, b.Rect, l.Frame)
		case !onMap && b.Overlaps(l.Frame):
			t.Errorf("%s: %q at %v covers the map %v", name, b.Text, b.Rect, l.Frame)
		case b.Kind == press.LegendText && !b.Within(l.Legend.Grow(2)):
			t.Errorf("%s: %q at %v leaves the legend %v", name, b.Text, b.Rect, l.Legend)
		}
		for _, o := range l.Boxes[:i] {
			if letters(b).Overlaps(letters(o)) {
				t.Errorf("%s: %q at %v covers %q at %v", name, b.Text, b.Rect, o.Text, o.Rect)
			}
		}
	}
}

// letters is the box without the rooms for accents and descenders, which two
// lines of one name may share.
func letters(b press.Box) plane.Rect {
	r := b.Rect
	r.Top += r.Height() * 0.15
	r.Bottom -= r.Height() * 0.05
	return r
}

func TestLayout(t *testing.T) {
	long := merrow.bandMap(12)
	long.Title = strings.Repeat("An exceedingly long title that has to be wrapped ", 3)
	long.Subtitle = strings.Repeat("and a subtitle in the same vein; ", 6)
	long.Source = "Supercalifragilistic" + strings.Repeat("expialidocious", 20) + "."
	long.Cautions = append(long.Cautions, strings.Repeat("Keep off water and hard surfaces. ", 12))
	long.Undated[0].Label = "always above the threshold in the typical year, and therefore without a date"
	for name, c := range map[string]struct {
		island island
		m      render.BandMap
	}{
		"wide": {merrow, merrow.bandMap(8)}, "tall": {skerry, skerry.bandMap(10)},
		"long words": {merrow, long}, "long words, tall": {skerry, long},
		"one band": {merrow, merrow.bandMap(1)}, "eighteen bands": {merrow, merrow.bandMap(18)},
		"no words": {merrow, render.BandMap{Bands: merrow.bandMap(3).Bands}},
		"nothing":  {merrow, render.BandMap{}},
	} {
		for _, width := range []int{480, 900, 1200, 1600, 2400} {
			a := must(render.NewAtlas(c.island.territory(), width))
			checkLayout(t, fmt.Sprintf("%s at %d px", name, width), must(a.Bands(c.m)).Layout)
		}
	}
}

// All names of the island fit at 900 px, each once.
func TestNames(t *testing.T) {
	a := must(render.NewAtlas(merrow.territory(), 900))
	l := must(a.Bands(merrow.bandMap(8))).Layout
	if len(l.Dropped) > 0 {
		t.Errorf("no room for %q", l.Dropped)
	}
	text := ""
	for _, b := range l.Boxes {
		if b.Kind == press.RegionLabel || b.Kind == press.PlaceLabel {
			text += b.Text + " "
		}
	}
	for _, want := range append(regionNames[:], "Gannet Isle", "Wrack", "Port Merrow", "Čerstvá Lhota") {
		if n := strings.Count(text, want); n != 1 {
			t.Errorf("%q stands %d times on the map", want, n)
		}
	}
}

// A name that finds no room is reported, not squeezed in.
func TestDroppedNames(t *testing.T) {
	terr := merrow.territory()
	for i := range 60 {
		p := merrow.at(0.45+0.001*float64(i), 0.5)
		terr.Places = append(terr.Places, render.Place{Name: fmt.Sprintf("Hamlet %d", i), At: grid.LonLat{Lon: p[0], Lat: p[1]}, Rank: 5})
	}
	l := must(must(render.NewAtlas(terr, 900)).Bands(merrow.bandMap(8))).Layout
	checkLayout(t, "crowded", l)
	shown := 0
	for _, b := range l.Boxes {
		if strings.HasPrefix(b.Text, "Hamlet") {
			shown++
		}
	}
	if shown+len(l.Dropped) != 60 || shown == 0 || shown > 10 {
		t.Errorf("%d of 60 hamlets within 6 %% of the island are named, %d reported as dropped", shown, len(l.Dropped))
	}
}

// states returns the 48 contiguous states and the capital's district.
func states(t testing.TB) render.Territory { return outlined(stateSet(t)) }

func stateSet(t testing.TB) regions.Set {
	f, err := os.Open(oracle.Data(t, "us/states-10m.json"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	set := must(polygons.Decode(f, "states-10m.json", polygons.Options{Object: "states"}))
	kept := set.Regions[:0:0]
	for _, r := range set.Regions {
		if r.ID != "02" && r.ID != "15" && r.ID < "57" { // neither Alaska, Hawaii nor the islands
			kept = append(kept, r)
		}
	}
	set.Regions = kept
	return set
}

// latitudes shades the box of the contiguous US in twelve bands.
func latitudes() render.BandMap {
	m := merrow.bandMap(12)
	m.Undated, m.Uncertain = nil, render.Overlay{}
	for i := range m.Bands {
		s, n := 24+2.2*float64(i), 26.2+2.2*float64(i)
		m.Bands[i].Shape = orb.MultiPolygon{{{{-130, s}, {-60, s}, {-60, n}, {-130, n}, {-130, s}}}}
	}
	return m
}

// Real outlines: the crowded north-east keeps nearly all its names.
func TestCrowdedStates(t *testing.T) {
	terr := states(t)
	for width, most := range map[int]int{900: 2, 1600: 0, 2400: 0} {
		l := must(must(render.NewAtlas(terr, width)).Bands(latitudes())).Layout
		checkLayout(t, fmt.Sprintf("states at %d px", width), l)
		if len(l.Dropped) > most {
			t.Errorf("at %d px no room for %q", width, l.Dropped)
		}
		for _, b := range l.Boxes {
			if b.Kind == press.ScaleLabel {
				t.Errorf("a map 4,500 km wide has a scale bar %q", b.Text)
			}
		}
	}
}

// The frames of a series stand alike, with the week in one corner.
func TestFramesStandAlike(t *testing.T) {
	a := must(render.NewAtlas(merrow.territory(), 900))
	first := a.Status(merrow.frame(0, 20)).Layout
	checkLayout(t, "frame", first)
	at := week(first)
	for i := 1; i < 20; i++ {
		l := a.Status(merrow.frame(i, 20)).Layout
		w := week(l)
		if l.Frame != first.Frame || l.Height != first.Height || l.Legend != first.Legend {
			t.Errorf("frame %d stands otherwise than the first", i)
		}
		if w.Left != at.Left && w.Right != at.Right || w.Text != merrow.frame(i, 20).Week || w.Top != at.Top {
			t.Errorf("frame %d has its week %q at %v, the first %q at %v", i, w.Text, w.Rect, at.Text, at.Rect)
		}
	}
}

func week(l press.Layout) press.Box {
	for _, b := range l.Boxes {
		if b.Kind == press.WeekLabel {
			return b
		}
	}
	return press.Box{}
}

// A map of three thousand counties leaves their names out, quickly, and says
// so; a leader to each would hide the map.
func TestManyRegions(t *testing.T) {
	terr := merrow.territory()
	terr.Regions = nil
	for i := range 3000 {
		u, v := float64(i%60)/60, float64(i/60)/50
		terr.Regions = append(terr.Regions, render.Region{
			Name: fmt.Sprintf("County %d", i), Shape: orb.MultiPolygon{{merrow.rect(u, v, u+1./60, v+1./50)}},
		})
	}
	start := time.Now()
	l := must(must(render.NewAtlas(terr, 1200)).Bands(merrow.bandMap(8))).Layout
	checkLayout(t, "many regions", l)
	if took := time.Since(start); took > 20*time.Second { // 0.4 s on an idle machine
		t.Errorf("the layout took %v", took)
	}
	counties := 0
	for _, name := range l.Dropped {
		if strings.HasPrefix(name, "County") {
			counties++
		}
	}
	if counties != 3000 {
		t.Errorf("%d of 3000 names are reported as left out", counties)
	}
}
