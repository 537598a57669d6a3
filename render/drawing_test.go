package render

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"

	"weekband/render/carto"
	"weekband/render/wording"
)

func ringOf(xy ...float64) *Path {
	var points []carto.Pixel
	for i := 0; i < len(xy); i += 2 {
		points = append(points, carto.Pixel{X: xy[i], Y: xy[i+1]})
	}
	var p Path
	p.AddRing(points...)
	return &p
}

// The widest place of shapes whose inscribed circle is known.
func TestWidest(t *testing.T) {
	ell := ringOf(0, 0, 100, 0, 100, 40, 40, 40, 40, 100, 0, 100)
	frame := rectPath(Rect{Right: 100, Bottom: 80})
	frame.AddRing(carto.Pixel{X: 10, Y: 10}, carto.Pixel{X: 10, Y: 70}, carto.Pixel{X: 60, Y: 70}, carto.Pixel{X: 60, Y: 10}) // a hole
	for name, c := range map[string]struct {
		shape    *Path
		x, y     float64
		distance float64
	}{
		// A circle that touches the two long sides and the inner corner: its
		// radius r solves r = (40−r)·√2, so r = 40·√2/(1+√2).
		"ell":            {ell, 40 * math.Sqrt2 / (1 + math.Sqrt2), 40 * math.Sqrt2 / (1 + math.Sqrt2), 40 * math.Sqrt2 / (1 + math.Sqrt2)},
		"right triangle": {ringOf(0, 0, 30, 0, 0, 40), 10, 10, 10}, // (30+40−50)/2
	} {
		at, d, ok := widest(c.shape)
		if !ok || math.Abs(d-c.distance) > 0.5 || math.Hypot(at.X-c.x, at.Y-c.y) > 2 {
			t.Errorf("%s: %v at distance %.2f, want %.1f, %.1f at %.2f", name, at, d, c.x, c.y, c.distance)
		}
	}
	// Between hole and edge a circle of 40 px fits, anywhere half way up.
	if at, d, _ := widest(frame); math.Abs(d-20) > 0.5 || math.Abs(at.X-80) > 1 {
		t.Errorf("frame: %v at distance %.2f, want x = 80 at 20", at, d)
	}
	if _, _, ok := widest(&Path{}); ok {
		t.Error("an empty shape has a widest place")
	}
}

// The cover of a shape against counting points one by one.
func TestCover(t *testing.T) {
	shape := ringOf(10, 10, 90, 20, 80, 70, 40, 40, 15, 80)
	shape.AddRing(carto.Pixel{X: 30, Y: 22}, carto.Pixel{X: 30, Y: 34}, carto.Pixel{X: 45, Y: 28}) // a hole
	if turning(shape.lines[0].points)*turning(shape.lines[1].points) >= 0 {
		t.Fatal("the hole winds like its ring")
	}
	c := newCover(shape, 0.5)
	for _, box := range []Rect{
		{Left: 5, Top: 5, Right: 95, Bottom: 85}, {Left: 20, Top: 15, Right: 60, Bottom: 45},
		{Left: 60, Top: 30, Right: 75, Bottom: 40}, {Right: 9, Bottom: 9},
	} {
		in := 0
		const n = 200
		for i := range n {
			for k := range n {
				p := carto.Pixel{X: box.Left + box.Width()*(float64(i)+0.5)/n, Y: box.Top + box.Height()*(float64(k)+0.5)/n}
				if depth(shape, p) > 0 {
					in++
				}
			}
		}
		if got, want := c.share(box), float64(in)/n/n; math.Abs(got-want) > 0.01 {
			t.Errorf("%v is covered to %.3f, want %.3f", box, got, want)
		}
	}
	for _, at := range c.rooms(20, 8, carto.Pixel{X: 60, Y: 30}) {
		if s := c.share(Rect{Left: at.X - 10, Top: at.Y - 4, Right: at.X + 10, Bottom: at.Y + 4}); s < 0.93 { // the scan lines end half a step inside
			t.Errorf("a room at %v is covered to only %.2f", at, s)
		}
	}
}

// Textures stay inside their shape and cover it evenly.
func TestTextures(t *testing.T) {
	shape := rectPath(Rect{Left: 10, Top: 20, Right: 210, Bottom: 170})
	for _, p := range []Pattern{Rising, Falling, Level, Upright, Dots, Wide} {
		tex := p.texture(13)
		marks := tex.linesOn(shape)
		if tex.dots {
			marks = points(tex.dotsOn(shape))
		}
		if !marks.Bounds().Within(Rect{Left: 10, Top: 20, Right: 210, Bottom: 170}.Grow(1e-9)) {
			t.Errorf("pattern %d reaches to %v", p, marks.Bounds())
		}
		length := 0.0
		for _, l := range marks.lines {
			if !tex.dots {
				length += math.Hypot(l.points[0].X-l.points[1].X, l.points[0].Y-l.points[1].Y)
			}
		}
		got, want := length*tex.spacing, 200*150. // lines a spacing apart
		if tex.dots {
			got = float64(len(marks.lines)) * tex.spacing * tex.spacing
		}
		if math.Abs(got/want-1) > 0.07 {
			t.Errorf("pattern %d covers %.0f px², want %.0f", p, got, want)
		}
	}
	if !Plain.texture(13).linesOn(&Path{}).Empty() {
		t.Error("an empty shape has a texture")
	}
}

// Advance widths of Liberation Sans, which has the metrics of the classic
// grotesque: digits are 1139 of 2048 units wide (hmtx table), so ten of them
// at 20 px take 111.2 px. A kerned pair is narrower than its letters.
func TestWidths(t *testing.T) {
	f := Font{Face: Regular, Size: 20}
	if got := f.Width("0123456789"); math.Abs(got-10*20*1139/2048.) > 0.02 {
		t.Errorf("ten digits are %.3f px wide, want %.3f", got, 10*20*1139/2048.)
	}
	if kerned, apart := f.Width("AV"), f.Width("A")+f.Width("V"); kerned >= apart {
		t.Errorf("AV is %.2f px wide, its letters %.2f", kerned, apart)
	}
	if got := f.Width(""); got != 0 {
		t.Errorf("nothing is %g px wide", got)
	}
}

func TestWrap(t *testing.T) {
	f := Font{Face: Regular, Size: 10}
	for name, c := range map[string]struct {
		text  string
		width float64
		want  string
	}{
		"fits":      {"Mar 12–18", 60, "Mar 12–18"},
		"at a dash": {"Mar 26–Apr 1", 45, "Mar 26–|Apr 1"},
		"at spaces": {"one two three", 40, "one two|three"},
		"its break": {"one\ntwo", 100, "one|two"},
		"one word":  {"Llanfairpwll", 30, "Llanfai|rpwll"},
		"nothing":   {"", 30, ""},
	} {
		lines := wrap(c.text, f, c.width)
		if got := strings.Join(lines, "|"); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
		for _, l := range lines {
			if w := f.Width(l); w > c.width {
				t.Errorf("%s: %q is %.1f px wide", name, l, w)
			}
		}
	}
}

func TestPercent(t *testing.T) {
	for share, want := range map[float64]string{0: "", 0.0001: "<1%", 0.00499: "<1%", 0.006: "1%", 0.125: "12%", 1: "100%"} {
		if got := wording.English().Percent(share); got != want {
			t.Errorf("%g is %q, want %q", share, got, want)
		}
	}
}

// A bar's length in pixels, checked with the scale of the screen; none when a
// map is wider than its scale holds.
func TestScaleBar(t *testing.T) {
	frame := Rect{Right: 1000, Bottom: 600}
	screen := func(km float64) carto.Screen {
		b := carto.Bounds{Max: carto.Point{X: km * 1000, Y: km * 600}}
		return carto.Fit(b, carto.Pixel{}, carto.Pixel{X: 1000, Y: 600})
	}
	for width, want := range map[float64]string{1000: "200 km (124 miles)", 90: "10 km (6.2 miles)", 1: "0.2 km (0.1 miles)"} {
		bar, ok := newScaleBar(screen(width), frame, 0.22)
		if !ok || bar.label(wording.English()) != want || math.Abs(bar.pixels-bar.km/width*1000) > 1e-6 {
			t.Errorf("%g km wide: %q of %.1f px, want %q", width, bar.label(wording.English()), bar.pixels, want)
		}
	}
	if bar, ok := newScaleBar(screen(2100), frame, 0.22); ok {
		t.Errorf("a map 2,100 km wide has a bar of %s", bar.label(wording.English()))
	}
}

// Few colours stay exactly, and those to keep; of many none moves far.
func TestReduce(t *testing.T) {
	im := image.NewRGBA(image.Rect(0, 0, 300, 200))
	shade := func(x, y int) color.RGBA {
		if y < 150 {
			return color.RGBA{R: uint8(x / 100 * 90), G: 40, B: 200, A: 255}
		}
		return color.RGBA{R: uint8(x), G: uint8(3 * y), B: uint8(x + y), A: 255}
	}
	for y := range 200 {
		for x := range 300 {
			im.Set(x, y, shade(x, y))
		}
	}
	three := image.NewRGBA(image.Rect(0, 0, 300, 150))
	copy(three.Pix, im.Pix)
	reduced := func(im *image.RGBA, keep map[rgb]bool) (*image.Paletted, reduction) {
		p := newPainting(im)
		if !bytes.Equal(p.image().Pix, im.Pix) {
			t.Fatal("a painting is not what was painted")
		}
		r := reduce([]*Painting{p}, paletteSize, keep)
		return &image.Paletted{Pix: p.indexes(r.index), Stride: p.size.X, Rect: im.Rect, Palette: r.palette}, r
	}
	if few, r := reduced(three, nil); r.moved > 0 || len(few.Palette) != 3 {
		t.Errorf("three colours became %d, moved by %v", len(few.Palette), r.moved)
	}
	rare := shade(7, 160) // one pixel
	out, r := reduced(im, map[rgb]bool{rgb(rare.R)<<16 | rgb(rare.G)<<8 | rgb(rare.B): true})
	if r.moved > mostMoved {
		t.Fatalf("a colour moved by %v", r.moved)
	}
	for y := range 200 {
		for x := range 300 {
			got, want := out.At(x, y).(color.RGBA), shade(x, y)
			off := func(a, b uint8) int { return max(int(a)-int(b), int(b)-int(a)) }
			far := max(off(got.R, want.R), off(got.G, want.G), off(got.B, want.B))
			if far > mostMoved+1 || (y < 150 || want == rare) && far > 0 {
				t.Fatalf("pixel %d, %d of %v became %v", x, y, want, got)
			}
		}
	}
}

// A page of more colours than a palette can stand for keeps them all.
func TestTooManyColors(t *testing.T) {
	im := image.NewRGBA(image.Rect(0, 0, 256, 128))
	for y := range 128 {
		for x := range 256 {
			im.SetRGBA(x, y, color.RGBA{R: uint8(x), G: uint8(2 * y), B: uint8(x * y), A: 255})
		}
	}
	p := newPainting(im)
	r := reduce([]*Painting{p}, paletteSize, nil)
	if r.moved <= mostMoved {
		t.Fatalf("colours all over the place moved by %v only", r.moved)
	}
	var b bytes.Buffer
	page := Page{Layout: Layout{Width: 256, Height: 128}, steps: []func(Canvas){func(c Canvas) {
		for y := range 128 {
			for x := range 256 {
				c.Fill(rectPath(Rect{Left: float64(x), Right: float64(x + 1), Top: float64(y), Bottom: float64(y + 1)}), color.NRGBA(im.RGBAAt(x, y)))
			}
		}
	}}}
	if err := page.PNG(&b, 1); err != nil {
		t.Fatal(err)
	}
	got, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	for y := range 128 {
		for x := range 256 {
			if c := color.RGBAModel.Convert(got.At(x, y)); c != im.RGBAAt(x, y) {
				t.Fatalf("pixel %d, %d: %v became %v", x, y, im.RGBAAt(x, y), c)
			}
		}
	}
}
