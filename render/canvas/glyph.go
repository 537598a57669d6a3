package canvas

import (
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"weekband/render/plane"
)

// Text fills the outlines of the glyphs, after a rim of the halo's width.
func (b *Bitmap) Text(t Text) {
	at := t.At
	at.X = t.Bounds().Left
	outline := func(curve func(from, over, to plane.Pixel)) {
		b.gg.ClearPath()
		t.Font.run(t.String, func(x float64, index sfnt.GlyphIndex, buf *sfnt.Buffer) {
			b.glyph(t.Font, plane.Pixel{X: at.X + x, Y: at.Y}, index, buf, curve)
		})
	}
	if t.Halo > 0 {
		outline(b.bend)
		b.gg.SetColor(HaloInk)
		b.gg.SetLineWidth(2 * t.Halo * b.scale)
		b.gg.Stroke()
	}
	outline(func(_, over, to plane.Pixel) { b.gg.QuadraticTo(over.X, over.Y, to.X, to.Y) })
	b.gg.SetColor(t.Color)
	b.gg.Fill()
}

// glyph adds the outline of a glyph to the current path, its curves by curve.
// Our fonts are TrueType, which has no cubic ones.
func (b *Bitmap) glyph(f Font, at plane.Pixel, index sfnt.GlyphIndex, buf *sfnt.Buffer, curve func(from, over, to plane.Pixel)) {
	segments, err := typefaces[f.Face]().LoadGlyph(buf, index, fullSize, nil)
	if err != nil {
		panic("canvas: reading a font of our own: " + err.Error())
	}
	k := f.Size * b.scale / unitSize / 64
	x0, y0 := b.at(at)
	px := func(p fixed.Point26_6) plane.Pixel {
		return plane.Pixel{X: x0 + float64(k*float64(p.X)), Y: y0 + float64(k*float64(p.Y))}
	}
	var last plane.Pixel
	for _, s := range segments {
		next := px(s.Args[0])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			b.gg.NewSubPath()
			b.gg.MoveTo(next.X, next.Y)
		case sfnt.SegmentOpLineTo:
			b.gg.LineTo(next.X, next.Y)
		case sfnt.SegmentOpQuadTo:
			over := next
			next = px(s.Args[1])
			curve(last, over, next)
		default:
			panic("canvas: a cubic curve in a font of our own")
		}
		last = next
	}
}

// bend adds a quadratic curve to the current path, to be stroked, as straight
// pieces of about a pixel. It finds the very places that gg would, but rounds
// each product of theirs, so that they are the same on every machine.
func (b *Bitmap) bend(from, over, to plane.Pixel) {
	from, over, to = sixtyFourths(from), sixtyFourths(over), sixtyFourths(to)
	n := max(4, int(plane.Distance(from, over)+plane.Distance(over, to)+0.5))
	for i := range n {
		t := float64(i) / float64(n-1)
		u := 1 - t
		p, q, r := float64(u*u), float64(2*u*t), float64(t*t)
		b.gg.LineTo(float64(p*from.X)+float64(q*over.X)+float64(r*to.X), float64(p*from.Y)+float64(q*over.Y)+float64(r*to.Y))
	}
}

// sixtyFourths cuts a place to the parts of a pixel that gg works in.
func sixtyFourths(p plane.Pixel) plane.Pixel {
	return plane.Pixel{X: float64(math.Trunc(p.X*64) / 64), Y: float64(math.Trunc(p.Y*64) / 64)}
}

// Letters calls letter for each letter of a line as it is drawn, from left to
// right, with its place from the start of the line in pixels, kerned.
func (f Font) Letters(s string, letter func(r rune, x float64)) {
	drawn := []rune(f.drawn(s))
	i := 0
	f.run(s, func(x float64, _ sfnt.GlyphIndex, _ *sfnt.Buffer) {
		letter(drawn[i], x)
		i++
	})
}

// Outline calls segment for each segment of the outlines of a line's glyphs,
// in layout pixels. What it is given are the end of a move or a line, or the
// control place and the end of a quadratic curve; our fonts have no others.
func (t Text) Outline(segment func(op sfnt.SegmentOp, at [3]plane.Pixel)) {
	left := t.Bounds().Left
	t.Font.run(t.String, func(x float64, index sfnt.GlyphIndex, buf *sfnt.Buffer) {
		segments, err := typefaces[t.Font.Face]().LoadGlyph(buf, index, fullSize, nil)
		if err != nil {
			panic("canvas: reading a font of our own: " + err.Error())
		}
		k := t.Font.Size / unitSize / 64
		for _, s := range segments {
			var p [3]plane.Pixel
			for i, q := range s.Args {
				p[i] = plane.Pixel{X: left + x + float64(k*float64(q.X)), Y: t.At.Y + float64(k*float64(q.Y))}
			}
			segment(s.Op, p)
		}
	})
}
