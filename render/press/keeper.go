package press

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"hash"
	"image"
	"image/color"
	"io"
	"math"

	"weekband/render/canvas"
	"weekband/render/plane"
)

// Keeper keeps finished work, so that what looks as it did before is not drawn
// again. A key stands for all that the work was made of but the program
// itself; a Keeper must not give one program the work of another. It may
// forget at any time. Its methods may be called by several goroutines at a
// time.
type Keeper interface {
	Get(Key) ([]byte, bool)
	Put(Key, []byte)
}

// Key names finished work: the SHA-256 of what it was made of.
type Key = [sha256.Size]byte

// throughKeeper writes what write writes, from the keeper when it is there.
func throughKeeper(k Keeper, key func() Key, w io.Writer, write func(io.Writer) error) error {
	if k == nil {
		return write(w)
	}
	name := key()
	data, ok := k.Get(name)
	if !ok {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			return err
		}
		data = b.Bytes()
		k.Put(name, data)
	}
	_, err := w.Write(data)
	return err
}

// digest is the Canvas that draws nothing and sums up all it is told: pages
// with the same sum look the same. Every list goes in with its length, every
// kind of call with a mark, so that no two drawings read alike.
type digest struct {
	sum hash.Hash
	buf []byte
}

func newDigest(kind string) *digest {
	d := &digest{sum: sha256.New()}
	d.text(kind)
	return d
}

// key returns the sum of all that went in.
func (d *digest) key() (k Key) {
	d.flush()
	d.sum.Sum(k[:0])
	return k
}

func (d *digest) flush() {
	d.sum.Write(d.buf)
	d.buf = d.buf[:0]
}

func (d *digest) number(v float64) {
	d.buf = binary.LittleEndian.AppendUint64(d.buf, math.Float64bits(v))
	if len(d.buf) > 1<<15 {
		d.flush()
	}
}

func (d *digest) numbers(list ...float64) {
	for _, v := range list {
		d.number(v)
	}
}

func (d *digest) text(s string) {
	d.number(float64(len(s)))
	d.buf = append(d.buf, s...)
}

func (d *digest) color(c color.NRGBA) { d.buf = append(d.buf, c.R, c.G, c.B, c.A) }

func (d *digest) mark(call byte) { d.buf = append(d.buf, call) }

func (d *digest) path(p *plane.Path) {
	d.number(float64(len(p.Lines)))
	for _, l := range p.Lines {
		closed := 0.0
		if l.Closed {
			closed = 1
		}
		d.number(closed)
		d.places(l.Points)
	}
}

func (d *digest) places(list []plane.Pixel) {
	d.number(float64(len(list)))
	for _, q := range list {
		d.number(q.X)
		d.number(q.Y)
	}
}

func (d *digest) Fill(p *plane.Path, c color.NRGBA) {
	d.mark('f')
	d.path(p)
	d.color(c)
}

func (d *digest) Stroke(p *plane.Path, pen canvas.Pen) {
	d.mark('s')
	d.path(p)
	d.color(pen.Color)
	d.number(pen.Width)
}

func (d *digest) Dots(at []plane.Pixel, radius float64, c color.NRGBA) {
	d.mark('d')
	d.places(at)
	d.number(radius)
	d.color(c)
}

func (d *digest) Mosaic(pieces []canvas.Piece) {
	d.mark('m')
	d.number(float64(len(pieces)))
	for _, p := range pieces {
		d.path(p.Shape)
		d.color(p.Color)
	}
}

func (d *digest) Clip(inside canvas.Stencil, draw func(canvas.Canvas)) {
	d.mark('c')
	d.path(inside.Path())
	draw(d)
	d.mark('e')
}

func (d *digest) Image(im *image.NRGBA, r plane.Rect) {
	d.mark('i')
	d.numbers(r.Left, r.Top, r.Right, r.Bottom, float64(im.Rect.Dx()), float64(im.Rect.Dy()))
	d.flush()
	for y := range im.Rect.Dy() {
		d.sum.Write(im.Pix[y*im.Stride:][:4*im.Rect.Dx()])
	}
}

func (d *digest) Text(t canvas.Text) {
	d.mark('t')
	d.text(t.String)
	d.numbers(t.At.X, t.At.Y, float64(t.Anchor), float64(t.Font.Face), t.Font.Size, t.Halo)
	d.color(t.Color)
}

// Layer sums up what the layer draws; a layer is painted by itself, from
// bounds that count too.
func (d *digest) Layer(l *canvas.Layer) {
	d.mark('l')
	b := l.Bounds()
	d.numbers(b.Left, b.Top, b.Right, b.Bottom)
	l.Draw(d)
	d.mark('e')
}

// key names a file of the page.
func (p *Page) key(kind string, described Description) Key {
	d := newDigest(kind)
	for _, text := range []string{described.Title, described.Desc, described.Lang} {
		d.text(text)
	}
	p.sumUp(d, p.steps)
	return d.key()
}

// sumUp puts steps of the page and how they are drawn into a digest.
func (p *Page) sumUp(d *digest, steps []func(canvas.Canvas)) {
	grey := 0.0
	if p.grey {
		grey = 1
	}
	d.numbers(p.Layout.Width, p.Layout.Height, grey)
	for _, step := range steps {
		step(d)
	}
}
