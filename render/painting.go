package render

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
)

// Painting is a page in opaque pixels, row by row from the top left, packed as
// runs of one colour. A map of a million pixels takes about a megabyte.
type Painting struct {
	size   image.Point
	colors []rgb // each once, in the order in which they occur
	counts []int // how many pixels have each
	runs   []run
}

// run is a stretch of equal pixels, over the ends of rows too.
type run struct {
	color uint32 // index of colors
	n     uint32 // pixels
}

// rgb is an opaque colour, 0xRRGGBB.
type rgb uint32

// channel returns red, green or blue.
func (c rgb) channel(k int) int { return int(c >> (16 - 8*k) & 255) }

// Paint draws the page with scale image pixels per layout pixel: 1 for a
// screen, 2 for a dense screen. It returns an error when scale is not between
// 0.5 and 10 or the image would have more than 60 million pixels.
func (p *Page) Paint(scale float64) (*Painting, error) {
	if !(scale >= minScale && scale <= maxScale) {
		return nil, fmt.Errorf("render: %g image pixels per layout pixel; want %g to %d", scale, minScale, maxScale)
	}
	if pixels := p.Layout.Width * scale * p.Layout.Height * scale; pixels > maxPixels {
		return nil, fmt.Errorf("render: an image of %.0f million pixels; want at most %.0f: draw it smaller", pixels/1e6, maxPixels/1e6)
	}
	b := newBitmap(p.Layout.Width, p.Layout.Height, scale)
	draw.Draw(b.image(), b.image().Rect, image.NewUniform(paper), image.Point{}, draw.Src) // a last row that is part of a pixel, too
	p.Draw(b)
	return newPainting(b.image()), nil
}

// newPainting packs an opaque image whose rows follow each other without gaps.
func newPainting(im *image.RGBA) *Painting {
	p := &Painting{size: im.Rect.Size()}
	index := map[rgb]uint32{}
	at := func(i int) rgb { return rgb(im.Pix[i])<<16 | rgb(im.Pix[i+1])<<8 | rgb(im.Pix[i+2]) }
	for i := 0; i < len(im.Pix); {
		c, from := at(i), i
		for i += 4; i < len(im.Pix) && at(i) == c; i += 4 {
		}
		k, ok := index[c]
		if !ok {
			k = uint32(len(p.colors))
			index[c] = k
			p.colors, p.counts = append(p.colors, c), append(p.counts, 0)
		}
		n := (i - from) / 4
		p.counts[k] += n
		p.runs = append(p.runs, run{color: k, n: uint32(n)})
	}
	return p
}

// encode writes the painting as PNG, in the colours of a reduction unless it
// moves one too far.
func (p *Painting) encode(w io.Writer, r reduction) error {
	if r.moved > mostMoved {
		return png.Encode(w, p.image())
	}
	return png.Encode(w, p.paletted(r))
}

// image returns the painting as it was painted.
func (p *Painting) image() *image.RGBA {
	im := image.NewRGBA(image.Rectangle{Max: p.size})
	i := 0
	for _, r := range p.runs {
		c := p.colors[r.color]
		for range r.n {
			im.SetRGBA(i%p.size.X, i/p.size.X, color.RGBA{R: uint8(c >> 16), G: uint8(c >> 8), B: uint8(c), A: 255})
			i++
		}
	}
	return im
}

// paletted returns the painting in the colours of a reduction that knows all
// of its own.
func (p *Painting) paletted(r reduction) *image.Paletted {
	index := make([]uint8, len(p.colors))
	for i, c := range p.colors {
		index[i] = r.index[c]
	}
	im := image.NewPaletted(image.Rectangle{Max: p.size}, r.palette)
	rest := im.Pix
	for _, r := range p.runs {
		k := index[r.color]
		for i := range rest[:r.n] {
			rest[i] = k
		}
		rest = rest[r.n:]
	}
	return im
}
