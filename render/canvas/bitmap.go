package canvas

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"github.com/fogleman/gg"
	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"weekband/render/plane"
)

// Bitmap is the Canvas that paints pixels, by fogleman/gg. It is for one
// goroutine at a time.
type Bitmap struct {
	gg     *gg.Context
	scale  float64     // image pixels per layout pixel
	origin image.Point // of the image within the page, in image pixels
}

// NewBitmap returns a transparent canvas for a page of a size in layout
// pixels, of scale image pixels to each.
func NewBitmap(width, height, scale float64) *Bitmap {
	dc := gg.NewContext(int(math.Round(width*scale)), int(math.Round(height*scale)))
	dc.SetLineCapRound()
	dc.SetLineJoinRound()
	dc.SetFillRuleWinding()
	return &Bitmap{gg: dc, scale: scale}
}

// NewBitmapPart returns a transparent canvas for a part of a page, a size large with
// its top left corner at origin, both in image pixels, of which scale are one
// layout pixel.
func NewBitmapPart(size, origin image.Point, scale float64) *Bitmap {
	b := NewBitmap(float64(size.X), float64(size.Y), 1)
	b.scale, b.origin = scale, origin
	return b
}

// Painted returns the pixels painted so far, which are those of the canvas.
func (b *Bitmap) Painted() *image.RGBA { return b.gg.Image().(*image.RGBA) }

func (b *Bitmap) Fill(p *plane.Path, c color.NRGBA) {
	if r, ok := p.AsRect(); ok && c.A == 255 && b.aligned(r) {
		draw.Draw(b.Painted(), b.Pixels(r), image.NewUniform(c), image.Point{}, draw.Src)
		return
	}
	lay(b.Painted(), b.mask(p), c)
}

// Dots fills octagons: at the size of dots nobody sees their corners.
func (b *Bitmap) Dots(at []plane.Pixel, radius float64, c color.NRGBA) {
	var p plane.Path
	for _, center := range at {
		p.AddRing(plane.Polygon(center, radius, 8)...)
	}
	b.Fill(&p, c)
}

// at returns a position of the layout in pixels of the image.
func (b *Bitmap) at(p plane.Pixel) (x, y float64) {
	return float64(p.X*b.scale) - float64(b.origin.X), float64(p.Y*b.scale) - float64(b.origin.Y)
}

// Mosaic adds up the colours of the pieces, each weighted with the part of
// the pixel it covers, on a layer of its own: pieces that share an edge
// together cover its pixels fully.
func (b *Bitmap) Mosaic(pieces []Piece) {
	masks := make([]*image.Alpha, len(pieces))
	var touched image.Rectangle
	for i, p := range pieces {
		masks[i] = b.mask(p.Shape)
		touched = touched.Union(masks[i].Rect)
	}
	layer := image.NewRGBA(touched)
	for i, p := range pieces {
		add(layer, masks[i], p.Color)
	}
	draw.Draw(b.Painted(), touched, layer, touched.Min, draw.Over)
}

// add adds an opaque colour to an image where a mask lets it, instead of
// laying it over what is there.
func add(to *image.RGBA, mask *image.Alpha, color color.NRGBA) {
	c := [4]uint32{uint32(color.R), uint32(color.G), uint32(color.B), 255}
	for y := mask.Rect.Min.Y; y < mask.Rect.Max.Y; y++ {
		alphas := mask.Pix[mask.PixOffset(mask.Rect.Min.X, y):][:mask.Rect.Dx()]
		pix := to.Pix[to.PixOffset(mask.Rect.Min.X, y):]
		for i, a := range alphas {
			if a == 0 {
				continue
			}
			for k := range c {
				pix[4*i+k] = uint8(min(255, uint32(pix[4*i+k])+(c[k]*uint32(a)+127)/255))
			}
		}
	}
}

// Clip paints on a layer of its own and lays it through the path.
func (b *Bitmap) Clip(inside Stencil, paint func(Canvas)) {
	mask := b.clip(inside)
	part := mask.Rect
	if part.Empty() {
		return
	}
	layer := NewBitmapPart(part.Size(), b.origin.Add(part.Min), b.scale)
	paint(layer)
	draw.DrawMask(b.Painted(), part, layer.Painted(), image.Point{}, mask, part.Min, draw.Over)
}

// Image interpolates between the four pixels around a place; of an image finer
// than the canvas it takes means.
func (b *Bitmap) Image(im *image.NRGBA, r plane.Rect) {
	im = Shrink(im, r.Width()*b.scale, r.Height()*b.scale)
	left, top := float64(r.Left*b.scale), float64(r.Top*b.scale)
	sx := r.Width() * b.scale / float64(im.Rect.Dx())
	sy := r.Height() * b.scale / float64(im.Rect.Dy())
	place := f64.Aff3{sx, 0, left - float64(sx*float64(im.Rect.Min.X)), 0, sy, top - float64(sy*float64(im.Rect.Min.Y))}
	part := *b.Painted() // of the whole page, so that each part of it is the same pixels
	part.Rect = part.Rect.Add(b.origin)
	xdraw.ApproxBiLinear.Transform(&part, place, im, im.Rect, xdraw.Over, nil)
}

// Pixels returns the image pixels a rectangle of the layout touches, of those
// there are.
func (b *Bitmap) Pixels(r plane.Rect) image.Rectangle {
	return b.touched(r).Intersect(b.Painted().Bounds())
}

// touched is pixels of an image without end.
func (b *Bitmap) touched(r plane.Rect) image.Rectangle {
	return image.Rect(
		int(math.Floor(r.Left*b.scale)), int(math.Floor(r.Top*b.scale)),
		int(math.Ceil(r.Right*b.scale)), int(math.Ceil(r.Bottom*b.scale)),
	).Sub(b.origin)
}

// aligned reports whether the edges of a rectangle are edges of pixels.
func (b *Bitmap) aligned(r plane.Rect) bool {
	for _, v := range [...]float64{r.Left, r.Top, r.Right, r.Bottom} {
		if v*b.scale != math.Round(v*b.scale) {
			return false
		}
	}
	return true
}
