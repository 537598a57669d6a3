package press

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"slices"
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
	if err := p.checkScale(scale); err != nil {
		return nil, err
	}
	body := p.paintBody(scale)
	if p.title == 0 {
		return body, nil
	}
	return p.paintHead(scale).above(body), nil
}

func (p *Page) checkScale(scale float64) error {
	if !(scale >= minScale && scale <= maxScale) {
		return fmt.Errorf("press: %g image pixels per layout pixel; want %g to %d", scale, minScale, maxScale)
	}
	if pixels := p.Layout.Width * scale * p.Layout.Height * scale; pixels > maxPixels {
		return fmt.Errorf("press: an image of %.0f million pixels; want at most %.0f: draw it smaller", pixels/1e6, maxPixels/1e6)
	}
	return nil
}

// newPainting packs an opaque image whose rows follow each other without gaps.
func newPainting(im *image.RGBA) *Painting {
	p := &Painting{size: im.Rect.Size()}
	index := map[rgb]uint32{}
	var lately [1 << 10]struct { // colours met lately, by their last bits: pictures hold few, a million times
		rgb
		k uint32
	}
	at := func(i int) rgb { return rgb(im.Pix[i])<<16 | rgb(im.Pix[i+1])<<8 | rgb(im.Pix[i+2]) }
	for i := 0; i < len(im.Pix); {
		c, from := at(i), i
		for i += 4; i < len(im.Pix) && at(i) == c; i += 4 {
		}
		slot := &lately[(c^c>>7^c>>13)%rgb(len(lately))]
		if slot.k == 0 || slot.rgb != c {
			k, ok := index[c]
			if !ok {
				k = uint32(len(p.colors))
				index[c] = k
				p.colors, p.counts = append(p.colors, c), append(p.counts, 0)
			}
			slot.rgb, slot.k = c, k+1
		}
		k, n := slot.k-1, (i-from)/4
		p.counts[k] += n
		p.runs = append(p.runs, run{color: k, n: uint32(n)})
	}
	return p
}

// above returns one painting over another of its width.
func (p *Painting) above(o *Painting) *Painting {
	out := &Painting{size: image.Pt(p.size.X, p.size.Y+o.size.Y), runs: slices.Clone(p.runs), colors: slices.Clone(p.colors), counts: slices.Clone(p.counts)}
	index := map[rgb]uint32{}
	for i, c := range out.colors {
		index[c] = uint32(i)
	}
	for i, c := range o.colors {
		k, ok := index[c]
		if !ok {
			k = uint32(len(out.colors))
			index[c] = k
			out.colors, out.counts = append(out.colors, c), append(out.counts, 0)
		}
		out.counts[k] += o.counts[i]
	}
	for _, r := range o.runs {
		out.runs = append(out.runs, run{color: index[o.colors[r.color]], n: r.n})
	}
	return out
}

// png writes the painting in full colours, with chunks after the header.
func (p *Painting) png(w io.Writer, own ...[]byte) error {
	var plain bytes.Buffer
	if err := png.Encode(&plain, p.Image()); err != nil {
		return err
	}
	const header = 8 + 25 // signature and IHDR, always the first chunk
	for _, part := range slices.Concat([][]byte{plain.Bytes()[:header]}, own, [][]byte{plain.Bytes()[header:]}) {
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return nil
}

// Image returns the painting as it was painted.
func (p *Painting) Image() *image.RGBA {
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

// indexes returns the palette's index of each pixel, by the index of each of
// the painting's colours.
func (p *Painting) indexes(index map[rgb]uint8) []uint8 {
	of := make([]uint8, len(p.colors))
	for i, c := range p.colors {
		of[i] = index[c]
	}
	out := make([]uint8, p.size.X*p.size.Y)
	rest := out
	for _, r := range p.runs {
		k := of[r.color]
		for i := range rest[:r.n] {
			rest[i] = k
		}
		rest = rest[r.n:]
	}
	return out
}
