package render_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"weekband/grid/oracle"
	"weekband/regions/polygons"
	"weekband/render"
)

func ExampleAtlas_NewLocators() {
	t := merrow.territory()
	l := must(must(render.NewAtlas(t, 900)).NewLocators(t.Regions, 300))
	near := l.Near(5)
	fmt.Println(near.Labels[0].Lines, "and", len(near.Regions)-1, "around it")
	fmt.Println("a ring:", l.Overview(5).Ring != nil, l.Overview(13).Ring != nil)
	// Output:
	// [Merrow Vale] and 11 around it
	// a ring: false true
}

// The parts of the overview fill the land, but for what thinning drops, and the
// picture of the land is well-formed.
func TestOverviewFillsTheLand(t *testing.T) {
	terr := merrow.spread()
	whole := append(terr.Regions[:len(terr.Regions):len(terr.Regions)], terr.Insets[0].Regions...)
	whole = append(whole, terr.Insets[1].Regions...)
	l := must(must(render.NewAtlas(terr, 900)).NewLocators(whole, 320))
	if len(l.Boxes) != 2 {
		t.Errorf("%d boxes, want two", len(l.Boxes))
	}
	land, sum := shoelace(ringsOf(t, l.Land())), 0.0
	for i := range whole {
		o := l.Overview(i)
		sum += shoelace(ringsOf(t, o.Path))
		if o.Path == "" && o.Ring == nil {
			t.Errorf("%s is not on the overview", whole[i].Name)
		}
	}
	if land < 10000 || math.Abs(land-sum) > 0.002*land {
		t.Errorf("the regions have %.1f px², the land %.1f", sum, land)
	}
	if o := l.Overview(len(whole) - 1); o.Path == "" { // Nordøyer, alone in its box
		t.Error("a region of an inset is not drawn")
	}
	d := xml.NewDecoder(bytes.NewReader(l.LandSVG()))
	for {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
}

func TestLocatorErrors(t *testing.T) {
	a := must(render.NewAtlas(merrow.territory(), 900))
	for _, c := range []struct {
		regions []render.Region
		width   int
		want    string
	}{{nil, 300, "no region"}, {merrow.territory().Regions, 80, "80 px"}} {
		if _, err := a.NewLocators(c.regions, c.width); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("width %d: %v, want %q", c.width, err, c.want)
		}
	}
	l := must(a.NewLocators([]render.Region{{Name: "Nowhere"}}, 300))
	if n := l.Near(0); len(n.Regions) != 0 || l.Overview(0).Ring != nil {
		t.Errorf("a region without ground has %+v", n)
	}
}

// counties are those of the United States, as one territory.
func counties(t testing.TB) (render.Territory, []render.Region) {
	f, err := os.Open(oracle.Data(t, "us/counties-10m.json"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	set, err := polygons.Decode(f, "counties-10m.json", polygons.Options{Object: "counties", Name: "name"})
	if err != nil {
		t.Fatal(err)
	}
	var terr render.Territory
	var all []render.Region
	for _, r := range set.Regions {
		all = append(all, render.Region{Name: r.Name, Shape: r.Shape})
		if b := r.Bounds; b.West > -126 && b.South > 24 && b.East < -66 && b.North < 50 {
			terr.Regions = append(terr.Regions, all[len(all)-1])
		}
	}
	return terr, all
}

func TestLocatorsOfCounties(t *testing.T) {
	unraced(t)
	terr, all := counties(t)
	l := must(must(render.NewAtlas(terr, 900)).NewLocators(all, 320))
	if n := gzipped(t, l.LandSVG()); n > 40_000 {
		t.Errorf("the land takes %d bytes gzipped, want 40,000", n)
	}
	size, named, seen := 0, 0, 0
	begin := time.Now()
	for i := 0; i < len(all); i += 7 {
		n := l.Near(i)
		checkLabels(t, i, n)
		for _, r := range n.Regions {
			size += len(r.Path)
		}
		named, seen = named+len(n.Labels), seen+1
	}
	t.Logf("%d views: %.2f ms, %d bytes of paths and %.1f names each", seen, time.Since(begin).Seconds()*1000/float64(seen), size/seen, float64(named)/float64(seen))
}

func BenchmarkNear(b *testing.B) {
	terr, all := counties(b)
	l := must(must(render.NewAtlas(terr, 900)).NewLocators(all, 320))
	i := 0
	for b.Loop() {
		l.Near(i % len(all))
		i += 101
	}
}
