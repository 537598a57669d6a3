package render_test

import (
	"os"
	"testing"
	"time"

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
