package render_test

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"image/png"
	"slices"
	"sync"
	"testing"
	"time"

	"weekband/render"
	"weekband/render/press"
)

// film is a series of twelve weeks of the island and its animation.
type film struct {
	paintings []*press.Painting
	series    *press.Series
	gif       []byte
	*gif.GIF
}

const (
	step = 600 * time.Millisecond
	hold = 3 * time.Second
)

var shoot = sync.OnceValue(func() film {
	var f film
	a := must(render.NewAtlas(merrow.territory(), 900))
	var pages []*press.Page
	for _, m := range merrow.frames(12) {
		pages = append(pages, a.Status(m).Page)
		f.paintings = append(f.paintings, must(pages[len(pages)-1].Paint(1)))
	}
	f.series = must(press.NewSeries(pages, 1))
	f.gif = animated(f.series)
	f.GIF = must(gif.DecodeAll(bytes.NewReader(f.gif)))
	return f
})

func animated(s *press.Series) []byte {
	var b bytes.Buffer
	if err := s.GIF(&b, step, hold); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// shown returns what a viewer sees of each frame: as no frame is disposed of,
// each is laid over those before (GIF89a, section 23).
func shown(g *gif.GIF) []*image.RGBA {
	var out []*image.RGBA
	screen := image.NewRGBA(image.Rect(0, 0, g.Config.Width, g.Config.Height))
	for _, im := range g.Image {
		draw.Draw(screen, im.Rect, im, im.Rect.Min, draw.Over)
		out = append(out, &image.RGBA{Pix: slices.Clone(screen.Pix), Stride: screen.Stride, Rect: screen.Rect})
	}
	return out
}

func TestAnimationTimes(t *testing.T) {
	unraced(t)
	f := shoot()
	if len(f.Image) != 12 || f.LoopCount != 0 || !bytes.Contains(f.gif, []byte("NETSCAPE2.0")) {
		t.Fatalf("%d frames, loop count %d, want 12 that go on for ever", len(f.Image), f.LoopCount)
	}
	for i, d := range f.Delay {
		want := 60
		if i == 11 {
			want = 300
		}
		if d != want || f.Disposal[i] != gif.DisposalNone {
			t.Errorf("frame %d shows for %d hundredths of a second, want %d; disposal %d", i, d, want, f.Disposal[i])
		}
	}
}

// Every frame is the one of the PNG, to the pixel, and that is what was
// painted but for rims of lines and letters.
func TestAnimationShowsTheFrames(t *testing.T) {
	unraced(t)
	f := shoot()
	wide := areaColors(f.paintings)
	if len(wide) < 10 {
		t.Fatalf("%d colours of areas", len(wide))
	}
	for i, got := range shown(f.GIF) {
		var b bytes.Buffer
		if err := f.series.PNG(&b, i); err != nil {
			t.Fatal(err)
		}
		want := image.NewRGBA(got.Rect)
		draw.Draw(want, want.Rect, must(png.Decode(&b)), image.Point{}, draw.Src)
		if !bytes.Equal(got.Pix, want.Pix) {
			t.Errorf("frame %d is not that of the PNG", i)
		}
		painted := f.paintings[i].Image()
		for k := 0; k < len(got.Pix); k += 4 {
			far := 0
			for c := range 4 {
				far = max(far, int(max(got.Pix[k+c], painted.Pix[k+c])-min(got.Pix[k+c], painted.Pix[k+c])))
			}
			if far > 24 || far > 0 && wide[[4]byte(painted.Pix[k:])] {
				t.Fatalf("frame %d, pixel %d: %v became %v", i, k/4, painted.Pix[k:k+4], got.Pix[k:k+4])
			}
		}
	}
}

// areaColors returns the colours that fill a thousandth of all pixels or more.
func areaColors(paintings []*press.Painting) map[[4]byte]bool {
	counts, pixels := map[[4]byte]int{}, 0
	for _, p := range paintings {
		pix := p.Image().Pix
		for k := 0; k < len(pix); k += 4 {
			counts[[4]byte(pix[k:])]++
			pixels++
		}
	}
	wide := map[[4]byte]bool{}
	for c, n := range counts {
		if n*1000 >= pixels {
			wide[c] = true
		}
	}
	return wide
}

// What was painted alike in two frames in a row does not flicker, and what
// changes is a part of the picture.
func TestAnimationDoesNotFlicker(t *testing.T) {
	unraced(t)
	f := shoot()
	frames := shown(f.GIF)
	for i := 1; i < len(frames); i++ {
		was, is := f.paintings[i-1].Image(), f.paintings[i].Image()
		changed := 0
		for k := 0; k < len(is.Pix); k += 4 {
			if !bytes.Equal(was.Pix[k:k+4], is.Pix[k:k+4]) {
				changed++
			} else if !bytes.Equal(frames[i-1].Pix[k:k+4], frames[i].Pix[k:k+4]) {
				t.Fatalf("frame %d, pixel %d changes for no reason", i, k/4)
			}
		}
		if area := len(is.Pix) / 4; changed < area/1000 || changed > area/2 {
			t.Errorf("frame %d: %d of %d pixels change", i, changed, area)
		}
		if r := f.Image[i].Rect; r.Dx() >= is.Rect.Dx() || r.Dy() >= is.Rect.Dy() {
			t.Errorf("frame %d fills the whole picture, %v", i, r)
		}
	}
}

// One palette serves all frames, and only changes are kept: the file is
// smaller than half of what its frames are alone.
func TestAnimationIsSmall(t *testing.T) {
	f := shoot()
	global := f.Config.ColorModel.(color.Palette)
	alone := 0
	for i, im := range f.Image {
		if len(im.Palette) != len(global) {
			t.Errorf("frame %d has a palette of its own", i)
		}
		var b bytes.Buffer
		if err := f.series.PNG(&b, i); err != nil {
			t.Fatal(err)
		}
		alone += b.Len()
	}
	if len(f.gif)*2 > alone {
		t.Errorf("%d bytes, frames alone %d", len(f.gif), alone)
	}
	if !bytes.Equal(f.gif, animated(f.series)) {
		t.Error("made again it is another file")
	}
}

// A week like the one before has its time too; odd frames are refused.
func TestSeriesOfOddFrames(t *testing.T) {
	a, narrow := must(render.NewAtlas(merrow.territory(), 480)), must(render.NewAtlas(merrow.territory(), 400))
	one := a.Status(merrow.frame(3, 12))
	g := must(gif.DecodeAll(bytes.NewReader(animated(must(press.NewSeries([]*press.Page{one.Page, one.Page, one.Page}, 1))))))
	if len(g.Image) != 3 || g.Image[1].Rect.Dx() != 1 {
		t.Errorf("three weeks alike became %d frames", len(g.Image))
	}
	for i, im := range shown(g) {
		if !bytes.Equal(im.Pix, shown(g)[0].Pix) {
			t.Errorf("frame %d differs", i)
		}
	}
	if _, err := press.NewSeries(nil, 1); err == nil {
		t.Error("a series without frames was made")
	}
	if _, err := press.NewSeries([]*press.Page{one.Page, narrow.Status(merrow.frame(3, 12)).Page}, 1); err == nil {
		t.Error("frames of two sizes were joined")
	}
}
