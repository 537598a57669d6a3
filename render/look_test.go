package render_test

import (
	"fmt"
	"io"
	"math"
	"os"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"weekband/regions"
	"weekband/render"
)

func TestLook(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip()
	}
	save := func(name string, p *render.Page, scale float64) {
		start := time.Now()
		f := must(os.Create(dir + "/" + name + ".png"))
		if err := p.PNG(f, scale); err != nil {
			t.Fatal(err)
		}
		f.Close()
		st, _ := os.Stat(dir + "/" + name + ".png")
		t.Log(name, time.Since(start), st.Size(), "dropped", p.Layout.Dropped)
	}
	a := must(render.NewAtlas(merrow.territory(), 900))
	save("wide-900", must(a.Bands(merrow.bandMap(8))), 1)
	g := merrow.bandMap(12)
	g.Grey = true
	save("grey-900", must(a.Bands(g)), 1)
	save("frame-900", a.Status(merrow.frame(10, 20)), 1)
	b := must(render.NewAtlas(merrow.territory(), 1600))
	save("wide-1600", must(b.Bands(merrow.bandMap(12))), 1)
	c := must(render.NewAtlas(skerry.territory(), 900))
	save("tall-900", must(c.Bands(skerry.bandMap(10))), 1)
}

func TestProfile(t *testing.T) {
	if os.Getenv("LOOK") == "" {
		t.Skip()
	}
	b := must(render.NewAtlas(merrow.territory(), 1600))
	m := merrow.bandMap(12)
	for range 10 {
		_ = must(b.Bands(m)).PNG(io.Discard, 1)
	}
}

func TestLookStates(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip()
	}
	f := must(os.Open("../../shared/data/us/states-10m.json"))
	set := must(regions.Decode(f, "states", regions.Options{Object: "states"}))
	var kept []regions.Region
	for _, r := range set.Regions {
		if r.ID != "02" && r.ID != "15" && r.ID < "57" {
			kept = append(kept, r)
		}
	}
	set.Regions = kept
	topo := set.Topology()
	terr := render.Territory{Borders: topo.Inner(), Coast: topo.Outer()}
	for _, r := range kept {
		terr.Regions = append(terr.Regions, render.Region{Name: r.Name, Shape: r.Shape})
	}
	m := merrow.bandMap(12)
	m.Undated, m.Uncertain = nil, render.Overlay{}
	for i := range m.Bands {
		lo, hi := 25+2*float64(i), 27+2*float64(i)
		if i == 0 {
			lo = 20
		}
		if i == 11 {
			hi = 52
		}
		var ring orb.Ring
		for k := range 131 {
			lon := -130 + float64(k)*0.5
			ring = append(ring, orb.Point{lon, lo + 0.6*math.Sin(lon/3)})
		}
		for k := range 131 {
			lon := -65 - float64(k)*0.5
			ring = append(ring, orb.Point{lon, hi + 0.6*math.Sin(lon/3)})
		}
		m.Bands[i].Shape = orb.MultiPolygon{{append(ring, ring[0])}}
	}
	for _, w := range []int{900, 1600} {
		a := must(render.NewAtlas(terr, w))
		p := must(a.Bands(m))
		out := must(os.Create(fmt.Sprintf("%s/us-%d.png", dir, w)))
		if err := p.PNG(out, 1); err != nil {
			t.Fatal(err)
		}
		out.Close()
		t.Log(w, "dropped", p.Layout.Dropped)
	}
}

func TestLookSheet(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip()
	}
	a := must(render.NewAtlas(merrow.territory(), 1200))
	var fs []render.StatusMap
	for i := range 16 {
		fs = append(fs, merrow.frame(i, 16))
	}
	out := must(os.Create(dir + "/sheet.png"))
	if err := a.Sheet(fs[0].Caption, fs).PNG(out, 1); err != nil {
		t.Fatal(err)
	}
	out.Close()
	for i := range fs {
		fs[i].Grey = true
	}
	out = must(os.Create(dir + "/sheet-grey.png"))
	if err := a.Sheet(fs[0].Caption, fs).PNG(out, 1); err != nil {
		t.Fatal(err)
	}
	out.Close()
}
