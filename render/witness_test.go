package render

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"slices"

	"weekband/render/canvas"
	"weekband/render/internal/eye"
	"weekband/render/press"
)

// witness is a bitmap that notes how every text stands out from what is
// painted under it.
type witness struct {
	*canvas.Bitmap
	seen []Legibility
}

// Legibility is the least contrast of a text to the pixels it stands on, or to
// its halo when it has one.
type Legibility struct {
	Text     string
	Contrast float64
	Halo     float64 // px, 0 for none
	Size     float64 // px
}

func (w *witness) Text(t canvas.Text) {
	l := Legibility{Text: t.String, Contrast: eye.Contrast(t.Color, canvas.HaloInk), Halo: t.Halo, Size: t.Font.Size}
	box := w.Pixels(t.Bounds())
	before := image.NewRGBA(box)
	draw.Draw(before, box, w.Painted(), box.Min, draw.Src)
	w.Bitmap.Text(t)
	if t.Halo == 0 {
		l.Contrast = math.Inf(1)
		for _, c := range undersOf(before, w.Painted()) {
			l.Contrast = min(l.Contrast, eye.Contrast(t.Color, c))
		}
	}
	w.seen = append(w.seen, l)
}

// undersOf returns the colours that stood where an image has changed and one
// pixel around.
func undersOf(before, after *image.RGBA) []color.NRGBA {
	var out []color.NRGBA
	known := map[color.NRGBA]bool{}
	r := before.Rect
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if before.RGBAAt(x, y) == after.RGBAAt(x, y) {
				continue
			}
			for k := range 9 {
				if q := image.Pt(x+k%3-1, y+k/3-1); q.In(r) {
					c := before.RGBAAt(q.X, q.Y)
					if u := (color.NRGBA{R: c.R, G: c.G, B: c.B, A: 255}); !known[u] {
						known[u] = true
						out = append(out, u)
					}
				}
			}
		}
	}
	return out
}

// Layer draws anew, so that the texts of a layer are seen.
func (w *witness) Layer(l *canvas.Layer) { l.Draw(w) }

// Legible returns how every text of a page stands out, in the order of drawing.
func Legible(p *press.Page) []Legibility {
	w := &witness{Bitmap: canvas.NewBitmap(p.Layout.Width, p.Layout.Height, 1)}
	p.Draw(w)
	return w.seen
}

// LegendTones returns the tones of the legend's samples as the page shows
// them, without that of ground marked over others, which is not painted.
func LegendTones(p *press.Page) []color.NRGBA {
	return slices.DeleteFunc(p.Tones(), func(c color.NRGBA) bool { return c == canvas.BareGround || c == canvas.GreyOf(canvas.BareGround) })
}

// Furniture returns the colours of large areas of a map that are no part of
// its message: water, land and paper.
func Furniture(grey bool) []color.NRGBA {
	out := []color.NRGBA{ground, canvas.BareGround, canvas.Paper}
	for i := range out {
		if grey {
			out[i] = canvas.GreyOf(out[i])
		}
	}
	return out
}

// AreaOf counts the pixels of a colour in a rectangle of an image, to within
// slack of 255 in each channel.
func AreaOf(im *image.NRGBA, r image.Rectangle, c color.NRGBA, slack int) int {
	n := 0
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			q := im.NRGBAAt(x, y)
			if max(gap(q.R, c.R), gap(q.G, c.G), gap(q.B, c.B)) <= slack {
				n++
			}
		}
	}
	return n
}

func gap(a, b uint8) int { return int(max(a, b)) - int(min(a, b)) }
