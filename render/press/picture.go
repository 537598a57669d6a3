package press

import (
	"bytes"
	"encoding/binary"
	"hash/adler32"
	"image"
	"image/color"
	"image/draw"
	"io"
	"math"

	"github.com/klauspost/compress/flate"

	"weekband/render/canvas"
)

// picture is a page in image pixels of a palette. Its head, the rows with the
// title, and its body are painted and packed apart and stand in one file one
// after the other: a page with another title shares the body.
type picture struct {
	width      int
	palette    color.Palette
	head, body stripe
}

// stripe is some rows of a picture: the palette's index of each pixel, a 0
// before every row (PNG, third edition, section 9.2: filter type None), deflated.
type stripe struct {
	rows   int
	packed []byte // ends with the last block of a stream, for a body
	sum    uint32 // Adler-32 of what is packed
}

// size returns the size of the page in image pixels, and which row is the
// first of the body.
func (p *Page) size(scale float64) (size image.Point, split int) {
	return image.Pt(int(math.Round(p.Layout.Width*scale)), int(math.Round(p.Layout.Height*scale))), int(p.head * scale)
}

// rows paints the image rows from one to before another with some of the
// page's steps.
func (p *Page) rows(scale float64, from, to int, steps []func(canvas.Canvas)) *Painting {
	size, _ := p.size(scale)
	b := canvas.NewBitmapPart(image.Pt(size.X, to-from), image.Pt(0, from), scale)
	draw.Draw(b.Painted(), b.Painted().Rect, image.NewUniform(canvas.Paper), image.Point{}, draw.Src) // a last row that is part of a pixel, too
	p.draw(b, steps)
	return newPainting(b.Painted())
}

// paintHead and paintBody paint the page's parts.
func (p *Page) paintHead(scale float64) *Painting {
	_, split := p.size(scale)
	return p.rows(scale, 0, split, p.steps[:p.title])
}

func (p *Page) paintBody(scale float64) *Painting {
	size, split := p.size(scale)
	return p.rows(scale, split, size.Y, p.steps[p.title:])
}

// inks are the colours a title may have, the ink of words by how much of a
// pixel it covers, as a painting that palettes are made with.
func (p *Page) inks() []*Painting {
	if p.title == 0 {
		return nil
	}
	const shades, pixels = 16, 100 // pixels of each: about those of a title
	var out Painting
	for _, ink := range []color.NRGBA{canvas.TextInk, canvas.LesserInk} {
		for k := 1; k <= shades; k++ {
			c := mix(canvas.Paper, ink, float64(k)/shades)
			if p.grey {
				c = canvas.GreyOf(c)
			}
			out.colors, out.counts = append(out.colors, rgbOf(c)), append(out.counts, pixels)
		}
	}
	out.size = image.Pt(len(out.colors), pixels)
	return []*Painting{&out}
}

// mix returns a colour on the straight line between two opaque ones, t of the
// way from a to b.
func mix(a, b color.NRGBA, t float64) color.NRGBA {
	part := func(a, b uint8) uint8 { return uint8(math.Round(float64(a) + float64(t*(float64(b)-float64(a))))) }
	return color.NRGBA{R: part(a.R, b.R), G: part(a.G, b.G), B: part(a.B, b.B), A: 255}
}

// packed returns colours as paintings hold them.
func packed(list []color.NRGBA) map[rgb]bool {
	out := map[rgb]bool{}
	for _, c := range list {
		out[rgbOf(c)] = true
	}
	return out
}

func rgbOf(c color.NRGBA) rgb { return rgb(c.R)<<16 | rgb(c.G)<<8 | rgb(c.B) }

// bodyKey names the body of a picture with so many colours.
func (p *Page) bodyKey(scale float64, colors int) Key {
	d := newDigest("body")
	size, split := p.size(scale)
	d.numbers(scale, float64(size.X), float64(size.Y), float64(split), float64(colors), float64(p.colors), float64(len(p.legend)))
	for _, c := range p.legend {
		d.color(c)
	}
	p.sumUp(d, p.steps[p.title:])
	return d.key()
}

// picture returns the page as a picture of at most so many colours, its body
// from the keeper when it is there. ok is false when the page has more colours
// than can be told apart by so few, unless always.
func (p *Page) picture(scale float64, colors int, always bool) (pic picture, ok bool) {
	if pic, ok = p.body(scale, colors, always); ok {
		pic.head = p.packHead(scale, pic.palette)
	}
	return pic, ok
}

// body returns the picture without its head.
func (p *Page) body(scale float64, colors int, always bool) (pic picture, ok bool) {
	var key Key
	if p.keeper != nil {
		key = p.bodyKey(scale, colors)
		if data, found := p.keeper.Get(key); found {
			return unkeep(data), true
		}
	}
	body := p.paintBody(scale)
	r := reduce(append(p.inks(), body), colors, packed(p.Tones()))
	if r.moved > mostMoved && !always {
		return pic, false
	}
	size, _ := p.size(scale)
	pic = picture{width: size.X, palette: r.palette, body: pack(body, r.index, true)}
	if p.keeper != nil {
		p.keeper.Put(key, pic.keep())
	}
	return pic, true
}

// packHead packs the head in the colours of a palette.
func (p *Page) packHead(scale float64, palette color.Palette) stripe {
	if p.title == 0 {
		return stripe{sum: 1}
	}
	head := p.paintHead(scale)
	return pack(head, likest(head.colors, palette), false)
}

// likest returns which colour of a palette each colour is like.
func likest(colors []rgb, palette color.Palette) map[rgb]uint8 {
	out := map[rgb]uint8{}
	for _, c := range colors {
		out[c] = uint8(palette.Index(color.RGBA{R: uint8(c.channel(0)), G: uint8(c.channel(1)), B: uint8(c.channel(2)), A: 255}))
	}
	return out
}

// pack packs a painting. A stream of several stripes ends with the one that is
// last.
func pack(p *Painting, index map[rgb]uint8, last bool) stripe {
	raw := make([]byte, 0, p.size.Y*(p.size.X+1))
	pixels := p.indexes(index)
	for y := range p.size.Y {
		raw = append(append(raw, 0), pixels[y*p.size.X:][:p.size.X]...)
	}
	var b bytes.Buffer
	w, err := flate.NewWriter(&b, flate.DefaultCompression)
	if err == nil {
		_, err = w.Write(raw)
	}
	if err == nil && last {
		err = w.Close()
	} else if err == nil {
		err = w.Flush()
	}
	if err != nil {
		panic("press: writing to memory: " + err.Error())
	}
	return stripe{rows: p.size.Y, packed: b.Bytes(), sum: adler32.Checksum(raw)}
}

// pixels unpacks a stripe: the palette's index of each pixel, row by row.
func (s stripe) pixels(width int) []uint8 {
	out := make([]uint8, s.rows*width)
	r := flate.NewReader(bytes.NewReader(s.packed))
	row := make([]byte, 1+width)
	for y := range s.rows {
		if _, err := io.ReadFull(r, row); err != nil {
			panic("press: a stripe of our own does not unpack: " + err.Error())
		}
		copy(out[y*width:], row[1:])
	}
	return out
}

// keep returns the picture without its head as bytes; unkeep reads them.
func (p picture) keep() []byte {
	var b bytes.Buffer
	b.WriteByte(uint8(len(p.palette) - 1))
	for _, c := range p.palette {
		c := c.(color.RGBA)
		b.Write([]byte{c.R, c.G, c.B})
	}
	for _, v := range []uint32{uint32(p.width), uint32(p.body.rows), p.body.sum} {
		b.Write(binary.BigEndian.AppendUint32(nil, v))
	}
	b.Write(p.body.packed)
	return b.Bytes()
}

func unkeep(data []byte) (p picture) {
	n := int(data[0]) + 1
	colors, rest := data[1:1+3*n], data[1+3*n:]
	for i := range n {
		p.palette = append(p.palette, color.RGBA{R: colors[3*i], G: colors[3*i+1], B: colors[3*i+2], A: 255})
	}
	number := func(i int) uint32 { return binary.BigEndian.Uint32(rest[4*i:]) }
	p.width = int(number(0))
	p.body = stripe{rows: int(number(1)), sum: number(2), packed: rest[12:]}
	return p
}

// png writes the picture as PNG (third edition), with chunks of its own before
// the palette.
func (p picture) png(w io.Writer, own ...[]byte) error {
	stream := bytes.NewBuffer([]byte{0x78, 0x9c}) // RFC 1950: deflate, window of 32 KiB, default effort
	stream.Write(p.head.packed)
	stream.Write(p.body.packed)
	sum := joined(p.head.sum, p.body.sum, p.body.rows*(p.width+1))
	stream.Write(binary.BigEndian.AppendUint32(nil, sum))
	var colors []byte
	for _, c := range p.palette {
		r, g, b, _ := c.RGBA()
		colors = append(colors, uint8(r>>8), uint8(g>>8), uint8(b>>8))
	}
	header := binary.BigEndian.AppendUint32(nil, uint32(p.width))
	header = binary.BigEndian.AppendUint32(header, uint32(p.head.rows+p.body.rows))
	header = append(header, 8, 3, 0, 0, 0) // 8 bits, indexed colour, the only methods, not interlaced
	parts := [][]byte{[]byte("\x89PNG\r\n\x1a\n"), chunk("IHDR", header)}
	parts = append(parts, own...)
	parts = append(parts, chunk("PLTE", colors), chunk("IDAT", stream.Bytes()), chunk("IEND", nil))
	for _, part := range parts {
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return nil
}

// joined returns the Adler-32 of two texts one after the other from theirs and
// the length of the second (RFC 1950, section 8.2: two sums modulo 65521).
func joined(first, second uint32, length int) uint32 {
	const base = 65521
	a1, b1, a2, b2 := first&0xffff, first>>16, second&0xffff, second>>16
	a := (a1 + a2 + base - 1) % base
	b := (uint64(b1) + uint64(b2) + uint64(length%base)*uint64(a1+base-1)) % base
	return uint32(b)<<16 | a
}
