package render

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"github.com/fogleman/gg"
	"github.com/golang/freetype/raster"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"weekband/render/carto"
)

// bitmap is the Canvas that paints pixels, by fogleman/gg.
type bitmap struct {
	gg    *gg.Context
	scale float64 // image pixels per layout pixel
}

// newBitmap returns a transparent canvas for a page of a size in layout
// pixels.
func newBitmap(width, height, scale float64) *bitmap {
	dc := gg.NewContext(int(math.Round(width*scale)), int(math.Round(height*scale)))
	dc.SetLineCapRound()
	dc.SetLineJoinRound()
	dc.SetFillRuleWinding()
	return &bitmap{gg: dc, scale: scale}
}

// image returns the pixels painted so far.
func (b *bitmap) image() *image.RGBA { return b.gg.Image().(*image.RGBA) }

// trace makes p the current path of the context.
func (b *bitmap) trace(p *Path) {
	b.gg.ClearPath()
	for _, l := range p.lines {
		b.gg.NewSubPath()
		for _, q := range l.points {
			b.gg.LineTo(q.X*b.scale, q.Y*b.scale)
		}
		if l.closed {
			b.gg.ClosePath()
		}
	}
}

func (b *bitmap) Fill(p *Path, c color.NRGBA) {
	if r, ok := p.rect(); ok && c.A == 255 && b.aligned(r) {
		draw.Draw(b.image(), b.pixels(r), image.NewUniform(c), image.Point{}, draw.Src)
		return
	}
	b.gg.SetColor(c)
	b.trace(p)
	b.gg.Fill()
}

func (b *bitmap) Stroke(p *Path, pen Pen) {
	b.gg.SetColor(pen.Color)
	b.gg.SetLineWidth(pen.Width * b.scale)
	b.trace(p)
	b.gg.Stroke()
}

// Mosaic adds up the colours of the pieces, each weighted with the part of
// the pixel it covers, on a layer of its own: pieces that share an edge
// together cover its pixels fully.
func (b *bitmap) Mosaic(pieces []Piece) {
	layer := image.NewRGBA(b.image().Bounds())
	for _, p := range pieces {
		b.rasterize(p.Shape, &adder{to: layer, color: p.Color})
	}
	draw.Draw(b.image(), layer.Bounds(), layer, image.Point{}, draw.Over)
}

func (b *bitmap) fixed(p carto.Pixel) fixed.Point26_6 {
	return fixed.Point26_6{X: fixed.Int26_6(math.Round(p.X * b.scale * 64)), Y: fixed.Int26_6(math.Round(p.Y * b.scale * 64))}
}

// adder is a raster.Painter that adds an opaque colour instead of laying it
// over what is there.
type adder struct {
	to    *image.RGBA
	color color.NRGBA
}

func (a *adder) Paint(spans []raster.Span, _ bool) {
	c := [4]uint32{uint32(a.color.R), uint32(a.color.G), uint32(a.color.B), 255}
	for _, s := range spans {
		if s.Y < 0 || s.Y >= a.to.Rect.Max.Y {
			continue
		}
		from, to := max(s.X0, 0), min(s.X1, a.to.Rect.Max.X)
		pix := a.to.Pix[s.Y*a.to.Stride:]
		for i := 4 * from; i < 4*to; i += 4 {
			for k := range c {
				pix[i+k] = uint8(min(255, uint32(pix[i+k])+(c[k]*s.Alpha+0x7fff)/0xffff))
			}
		}
	}
}

// Clip paints on a layer of its own and lays it through the path.
func (b *bitmap) Clip(inside *Path, paint func(Canvas)) {
	size := b.image().Bounds()
	layer := newBitmap(float64(size.Dx()), float64(size.Dy()), 1)
	layer.scale = b.scale
	paint(layer)
	mask := image.NewAlpha(size)
	b.rasterize(inside, raster.NewAlphaOverPainter(mask))
	part := b.pixels(inside.Bounds())
	draw.DrawMask(b.image(), part, layer.image(), part.Min, mask, part.Min, draw.Over)
}

// pixels returns the image pixels a rectangle of the layout touches.
func (b *bitmap) pixels(r Rect) image.Rectangle {
	return image.Rect(
		int(math.Floor(r.Left*b.scale)), int(math.Floor(r.Top*b.scale)),
		int(math.Ceil(r.Right*b.scale)), int(math.Ceil(r.Bottom*b.scale)),
	).Intersect(b.image().Bounds())
}

// aligned reports whether the edges of a rectangle are edges of pixels.
func (b *bitmap) aligned(r Rect) bool {
	for _, v := range [...]float64{r.Left, r.Top, r.Right, r.Bottom} {
		if v*b.scale != math.Round(v*b.scale) {
			return false
		}
	}
	return true
}

// rasterize hands the inside of a path to a painter.
func (b *bitmap) rasterize(p *Path, painter raster.Painter) {
	size := b.image().Bounds()
	r := raster.NewRasterizer(size.Dx(), size.Dy())
	r.UseNonZeroWinding = true
	for _, l := range p.lines {
		r.Start(b.fixed(l.points[0]))
		for _, q := range l.points[1:] {
			r.Add1(b.fixed(q))
		}
		r.Add1(b.fixed(l.points[0]))
	}
	r.Rasterize(painter)
}

// Text fills the outlines of the glyphs, after a rim of the halo's width.
func (b *bitmap) Text(t Text) {
	at := t.At
	at.X = t.Bounds().Left
	outline := func() {
		b.gg.ClearPath()
		t.Font.run(t.String, func(x float64, index sfnt.GlyphIndex, buf *sfnt.Buffer) {
			b.glyph(t.Font, carto.Pixel{X: at.X + x, Y: at.Y}, index, buf)
		})
	}
	if t.Halo > 0 {
		outline()
		b.gg.SetColor(haloColor)
		b.gg.SetLineWidth(2 * t.Halo * b.scale)
		b.gg.Stroke()
	}
	outline()
	b.gg.SetColor(t.Color)
	b.gg.Fill()
}

// glyph adds the outline of a glyph to the current path.
func (b *bitmap) glyph(f Font, at carto.Pixel, index sfnt.GlyphIndex, buf *sfnt.Buffer) {
	segments, err := typefaces[f.Face]().LoadGlyph(buf, index, fullSize, nil)
	if err != nil {
		panic("render: reading a font of our own: " + err.Error())
	}
	k := f.Size * b.scale / unitSize / 64
	x0, y0 := at.X*b.scale, at.Y*b.scale
	px := func(p fixed.Point26_6) (x, y float64) { return x0 + k*float64(p.X), y0 + k*float64(p.Y) }
	for _, s := range segments {
		x, y := px(s.Args[0])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			b.gg.NewSubPath()
			b.gg.MoveTo(x, y)
		case sfnt.SegmentOpLineTo:
			b.gg.LineTo(x, y)
		case sfnt.SegmentOpQuadTo:
			x1, y1 := px(s.Args[1])
			b.gg.QuadraticTo(x, y, x1, y1)
		case sfnt.SegmentOpCubeTo:
			x1, y1 := px(s.Args[1])
			x2, y2 := px(s.Args[2])
			b.gg.CubicTo(x, y, x1, y1, x2, y2)
		}
	}
}
