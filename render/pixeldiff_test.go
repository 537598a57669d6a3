package render_test

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"testing"

	"weekband/render"
	"weekband/render/press"
)

// Two pictures are the same when at most a share mostStrays of their pixels
// differs by more than a slack, of 255 in a channel. Machines that multiply and
// add in one step round coordinates otherwise, which was measured to turn no
// pixel by more than 6. The wanted picture has a palette, which moves the rare
// colours on rims by up to 20 and those of areas by none, but for 3 pixels.
const (
	areaSlack   = 8
	rimSlack    = 24
	mostStrays  = 0.0002
	exaggerated = 6 // by how much a difference picture amplifies
)

// pixelDiff is how two pictures of one size differ.
type pixelDiff struct {
	strays, pixels int             // that differ by more than their slack, and all
	worst          int             // the largest difference, of 255
	box            image.Rectangle // around the strays
	picture        *image.NRGBA    // the wanted picture, pale, under amplified differences in red
}

func (d pixelDiff) ok() bool { return float64(d.strays) <= mostStrays*float64(d.pixels) }

func (d pixelDiff) String() string {
	return fmt.Sprintf("%d of %d pixels (%.3f %%) are off by more than %d of 255 in areas or %d on rims, the worst by %d, all in %v",
		d.strays, d.pixels, 100*float64(d.strays)/float64(d.pixels), areaSlack, rimSlack, d.worst, d.box)
}

// diffPixels compares pictures of one size.
func diffPixels(want, got image.Image) pixelDiff {
	a, b := opaque(want), opaque(got)
	d := pixelDiff{pixels: a.Rect.Dx() * a.Rect.Dy(), picture: image.NewNRGBA(a.Rect)}
	for i := 0; i < len(a.Pix); i += 4 {
		off := 0
		for k := range 3 {
			c := int(a.Pix[i+k]) - int(b.Pix[i+k])
			off = max(off, c, -c)
		}
		d.worst = max(d.worst, off)
		slack := areaSlack
		x, y := i/4%a.Rect.Dx(), i/4/a.Rect.Dx()
		if off > slack && rim(a, x, y) {
			slack = rimSlack
		}
		if off > slack {
			d.strays++
			d.box = d.box.Union(image.Rect(x, y, x+1, y+1))
		}
		pale := uint8(170 + int(a.Pix[i+1])/3)
		left := uint8(max(0, int(pale)-exaggerated*off))
		copy(d.picture.Pix[i:], []uint8{pale, left, left, 255})
	}
	return d
}

// rim reports whether a pixel has a neighbour of another colour.
func rim(im *image.NRGBA, x, y int) bool {
	c := im.NRGBAAt(x, y)
	for _, d := range [...]image.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
		if q := image.Pt(x, y).Add(d); q.In(im.Rect) && im.NRGBAAt(q.X, q.Y) != c {
			return true
		}
	}
	return false
}

// opaque returns a picture from 0, 0 on.
func opaque(im image.Image) *image.NRGBA {
	out := image.NewNRGBA(image.Rectangle{Max: im.Bounds().Size()})
	draw.Draw(out, out.Rect, im, im.Bounds().Min, draw.Src)
	return out
}

// A name two pixels off, and a colour of the map 12 of 255 off in one channel,
// make another picture; a colour 8 of 255 off does not.
func TestDiffCanFail(t *testing.T) {
	kept := goldenPages()["band-map"]
	page, want, right := kept.page, opaque(picture(t, kept.page, 1)), kept.paint()
	if d := diffPixels(want, right); d.strays != 0 || !d.box.Empty() || d.worst > rimSlack {
		t.Errorf("a picture differs from itself: %v", d)
	}
	labels := 0
	for _, b := range page.Layout.Boxes {
		if b.Kind != press.RegionLabel && b.Kind != press.PlaceLabel {
			continue
		}
		labels++
		at := image.Rect(int(b.Left)-1, int(b.Top), int(b.Right)+1, int(b.Bottom))
		moved := opaque(right)
		draw.Draw(moved, at.Add(image.Pt(2, 0)), right, at.Min, draw.Src)
		d := diffPixels(want, moved)
		if around := at.Inset(-2); d.ok() || !d.box.In(around) {
			t.Errorf("%q moved by 2 px from %v: %v", b.Text, at, d)
		}
	}
	if labels < 8 {
		t.Errorf("only %d names on the map", labels)
	}
	shade := merrow.ground(must(must(render.NewAtlas(merrow.territory(), goldenWidth)).Bands(merrow.bandMap(8))), right, 1, 0.35, 0.75)
	for off, same := range map[uint8]bool{areaSlack: true, 12: false} {
		tinted := opaque(right)
		for i := 0; i < len(tinted.Pix); i += 4 {
			if (color.NRGBA{R: tinted.Pix[i], G: tinted.Pix[i+1], B: tinted.Pix[i+2], A: 255}) == shade {
				tinted.Pix[i+1] -= off
			}
		}
		if d := diffPixels(want, tinted); d.ok() != same {
			t.Errorf("the shade %v, %d darker: %v", shade, off, d)
		}
	}
}
