package render_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"sync"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/render"
	"weekband/render/looks"
	"weekband/render/press"
)

// silent is the island without names, so that nothing hides the ground.
func (s island) silent() render.Territory {
	t := s.territory()
	t.Places = nil
	for i := range t.Regions {
		t.Regions[i].Name = ""
	}
	return t
}

func encode(t testing.TB, p *press.Page, scale float64) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := p.PNG(&b, scale); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func picture(t testing.TB, p *press.Page, scale float64) image.Image {
	t.Helper()
	return must(png.Decode(bytes.NewReader(encode(t, p, scale))))
}

// ground returns the colour at a place of the bent square.
func (s island) ground(p *render.Map, im image.Image, scale, u, v float64) color.NRGBA {
	at := s.at(u, v)
	px := p.Pixel(grid.LonLat{Lon: at[0], Lat: at[1]})
	return color.NRGBAModel.Convert(im.At(int(px.X*scale), int(px.Y*scale))).(color.NRGBA)
}

// near reports whether a paletted pixel has a colour.
func near(a, b color.NRGBA) bool {
	off := func(x, y uint8) bool { return max(x, y)-min(x, y) > 2 }
	return !off(a.R, b.R) && !off(a.G, b.G) && !off(a.B, b.B)
}

// The middle of each band, away from borders, has the colour of its class at
// either scale.
func TestBandsHaveTheirColours(t *testing.T) {
	a := must(render.NewAtlas(merrow.silent(), 900))
	const n = 8
	page := must(a.Bands(merrow.bandMap(n)))
	palette := looks.NewPalette(n)
	for _, scale := range []float64{1, 2} {
		im := picture(t, page.Page, scale)
		for i := range n {
			v := alwaysTo + (1-alwaysTo)*(float64(i)+0.5)/n
			for _, u := range []float64{0.08, 0.4, 0.6, 0.93} {
				if i == n-1 && u == 0.4 || i == 1 && u == 0.08 {
					continue // the plateau, the uncertain ground
				}
				wave := edge(v)[int(u*60)][1]
				if got := merrow.ground(page, im, scale, u, wave); !near(got, palette[i]) {
					t.Errorf("scale %g, band %d at %.2f, %.2f is %v, want %v", scale, i, u, wave, got, palette[i])
				}
			}
		}
	}
}

// Ground without a week is light and drawn over with its texture, and no
// colour of a band.
func TestUndatedGround(t *testing.T) {
	a := must(render.NewAtlas(merrow.silent(), 900))
	const n = 8
	page := must(a.Bands(merrow.bandMap(n)))
	im := picture(t, page.Page, 2)
	count := func(u, v, du, dv float64) (colours map[color.NRGBA]int, darkest uint8) {
		colours, darkest = map[color.NRGBA]int{}, 255
		for i := range 60 {
			for k := range 60 {
				c := merrow.ground(page, im, 2, u+du*(float64(i)/30-1), v+dv*(float64(k)/30-1))
				colours[c]++
				darkest = min(darkest, c.G)
			}
		}
		return colours, darkest
	}
	step := (1 - alwaysTo) / n
	for name, c := range map[string]struct {
		u, v, du, dv float64
		textured     bool
	}{
		"never":   {0.42, 1 - step*0.45, 0.008, 0.008, true},
		"always":  {0.4, 0.035, 0.04, 0.01, true},
		"no data": {0.8, alwaysTo + step*(n/2+0.5) + 0.02, 0.004, 0.004, false},
	} {
		colours, darkest := count(c.u, c.v, c.du, c.dv)
		if textured := darkest < 200; textured != c.textured {
			t.Errorf("%s: the darkest green channel is %d, textured should be %v", name, darkest, c.textured)
		}
		for i, band := range looks.NewPalette(n) {
			if i > 0 && colours[band] > 0 { // the first is nearly as light as paper
				t.Errorf("%s: %d pixels of band %d", name, colours[band], i)
			}
		}
	}
}

// A band that reaches far over the sea is painted on land only, and nothing
// of the map leaves its frame.
func TestNothingOverWater(t *testing.T) {
	m := render.BandMap{Bands: merrow.bandMap(1).Bands}
	m.Bands[0].Shape = orb.MultiPolygon{{{{-50, 30}, {-10, 30}, {-10, 60}, {-50, 60}, {-50, 30}}}}
	terr := merrow.silent()
	terr.Borders, terr.Coast = []orb.LineString{}, []orb.LineString{} // no line takes land
	a := must(render.NewAtlas(terr, 900))
	page := must(a.Bands(m))
	im := picture(t, page.Page, 1)
	tone := looks.NewPalette(1)[0]
	land := 0
	for y := range im.Bounds().Dy() {
		for x := range im.Bounds().Dx() {
			if y < int(page.Layout.Frame.Bottom) && near(color.NRGBAModel.Convert(im.At(x, y)).(color.NRGBA), tone) {
				land++
			}
		}
	}
	for _, at := range []struct{ u, v float64 }{{-0.06, 0.3}, {1.05, 0.3}, {0.5, -0.06}, {0.02, 1.02}} {
		p := grid.LonLat{Lon: merrow.west + at.u*merrow.width, Lat: merrow.south + at.v*merrow.height}
		px := page.Pixel(p)
		if got := color.NRGBAModel.Convert(im.At(int(px.X), int(px.Y))).(color.NRGBA); near(got, tone) {
			t.Errorf("the sea at %v has the colour of the band", p)
		}
	}
	area := 0.0
	for _, r := range merrow.silent().Regions {
		area += regionKm2(r.Shape)
	}
	kmPerPixel := kmBetween(page, merrow)
	if want := area / (kmPerPixel * kmPerPixel); math.Abs(float64(land)/want-1) > 0.01 {
		t.Errorf("%d pixels of land, want about %.0f", land, want)
	}
}

// An extent smaller than the territory cuts it at the frame.
func TestExtentCutsTheMap(t *testing.T) {
	terr := merrow.territory()
	terr.Extent = grid.Box{West: -31, South: 44.5, East: -28, North: 46}
	a := must(render.NewAtlas(terr, 600))
	page := must(a.Bands(merrow.bandMap(8)))
	checkLayout(t, "part of the island", page.Layout)
	im := picture(t, page.Page, 1)
	f := page.Layout.Frame
	for y := int(f.Top); y < int(f.Bottom); y++ {
		for _, x := range []float64{f.Left - 4, f.Right + 4} {
			if got := color.NRGBAModel.Convert(im.At(int(x), y)).(color.NRGBA); got != (color.NRGBA{R: 255, G: 255, B: 255, A: 255}) {
				t.Fatalf("pixel %v, %d beside the frame is %v", x, y, got)
			}
		}
	}
}

// Bands that share an edge leave no line of the ground between them.
func TestNoSeams(t *testing.T) {
	terr := merrow.silent()
	terr.Borders, terr.Coast = []orb.LineString{}, []orb.LineString{}
	a := must(render.NewAtlas(terr, 900))
	m := merrow.bandMap(2)
	m.Undated, m.Uncertain = nil, render.Overlay{}
	m.Bands[0].Shape = orb.MultiPolygon{{merrow.stripe(0, 0.5)}}
	m.Bands[1].Shape = orb.MultiPolygon{{merrow.stripe(0.5, 1)}}
	page := must(a.Bands(m))
	im := picture(t, page.Page, 1)
	palette := looks.NewPalette(2)
	lightest := max(palette[0].B, palette[1].B) + 12
	for i := range 600 {
		u := 0.03 + 0.94*float64(i)/600
		k := u * 60
		e := edge(0.5)
		v := e[int(k)][1] + (k-float64(int(k)))*(e[int(k)+1][1]-e[int(k)][1])
		if got := merrow.ground(page, im, 1, u, v); got.B > lightest {
			t.Errorf("the seam at u = %.3f is %v", u, got)
		}
	}
}

// The same map gives the same bytes, again and from many goroutines.
func TestSameBytes(t *testing.T) {
	a := must(render.NewAtlas(merrow.territory(), 900))
	want := encode(t, must(a.Bands(merrow.bandMap(8))).Page, 1)
	var wg sync.WaitGroup
	for range 6 {
		wg.Go(func() {
			other := a
			if got := encode(t, must(other.Bands(merrow.bandMap(8))).Page, 1); !bytes.Equal(got, want) {
				t.Error("the same map gives other bytes")
			}
		})
	}
	wg.Wait()
	b := must(render.NewAtlas(merrow.territory(), 900))
	if got := encode(t, must(b.Bands(merrow.bandMap(8))).Page, 1); !bytes.Equal(got, want) {
		t.Error("a second atlas gives other bytes")
	}
}

// A grey map holds greys only.
func TestGreyIsGrey(t *testing.T) {
	a := must(render.NewAtlas(merrow.territory(), 900))
	m := merrow.bandMap(12)
	m.Grey = true
	im := picture(t, must(a.Bands(m)).Page, 1)
	for y := range im.Bounds().Dy() {
		for x := range im.Bounds().Dx() {
			if c := color.NRGBAModel.Convert(im.At(x, y)).(color.NRGBA); c.R != c.G || c.G != c.B {
				t.Fatalf("pixel %d, %d is %v", x, y, c)
			}
		}
	}
}
