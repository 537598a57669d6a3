package canvas

import (
	"image"
	"image/color"
	"math"

	"github.com/golang/freetype/raster"
	"golang.org/x/image/math/fixed"

	"weekband/render/plane"
)

// Stroke outlines the lines with golang/freetype's stroker and adds the
// outlines up in one coverage: what several of them cover is covered once.
func (b *Bitmap) Stroke(p *plane.Path, pen Pen) {
	width := pen.Width * b.scale
	part := b.Pixels(p.Bounds().Grow(pen.Width))
	if part.Empty() {
		return
	}
	joins := raster.RoundJoiner
	if width < 2.5 { // round joins cannot be seen and take twice the time
		joins = raster.BevelJoiner
	}
	out := outliner{coverage: newCoverage(part.Dx(), part.Dy()), pieces: max(3, int(math.Ceil(1.5*math.Sqrt(width))))}
	for _, l := range p.Lines {
		raster.Stroke(&out, b.steps(l, part.Min), fixed.Int26_6(width*64), raster.RoundCapper, joins)
	}
	mask := image.NewAlpha(part)
	out.write(mask.Pix)
	lay(b.Painted(), mask, pen.Color)
}

// lay lays a colour over an image where a mask lets it, rounding to the nearest:
// cut off, a hint of the colour on the rim of a line would make the ground beside
// it another colour.
func lay(to *image.RGBA, mask *image.Alpha, c color.NRGBA) {
	const all = 255 * 255
	channels := [4]uint32{uint32(c.R), uint32(c.G), uint32(c.B), 255}
	for y := mask.Rect.Min.Y; y < mask.Rect.Max.Y; y++ {
		alphas := mask.Pix[mask.PixOffset(mask.Rect.Min.X, y):][:mask.Rect.Dx()]
		pix := to.Pix[to.PixOffset(mask.Rect.Min.X, y):]
		for i, a := range alphas {
			if a == 0 {
				continue
			}
			part := uint32(a) * uint32(c.A)
			for k, v := range channels {
				pix[4*i+k] = uint8((v*part + uint32(pix[4*i+k])*(all-part) + all/2) / all)
			}
		}
	}
}

// tiny is the length under which steps of a line are joined to the next, in
// 64ths of a pixel: the stroker cannot tell their direction.
const tiny = 8

// steps returns a line as the stroker takes it, from an origin.
func (b *Bitmap) steps(l plane.Line, origin image.Point) raster.Path {
	path := make(raster.Path, 0, 4*len(l.Points)+4)
	last := fixed.Point26_6{}
	to := func(q plane.Pixel) {
		x, y := b.at(q)
		next := fixed.Point26_6{X: fixed.Int26_6((x - float64(origin.X)) * 64), Y: fixed.Int26_6((y - float64(origin.Y)) * 64)}
		d := next.Sub(last)
		switch {
		case len(path) == 0:
			path.Start(next)
		case max(d.X, -d.X)+max(d.Y, -d.Y) > tiny:
			path.Add1(next)
		default:
			return
		}
		last = next
	}
	for _, q := range l.Points {
		to(q)
	}
	if l.Closed {
		to(l.Points[0])
	}
	return path
}

// outliner adds the outlines of strokes to a coverage, curves as straight
// pieces.
type outliner struct {
	*coverage
	pieces int // of a curve
	x, y   float64
}

func places(p fixed.Point26_6) (x, y float64) { return float64(p.X) / 64, float64(p.Y) / 64 }

func (o *outliner) Start(a fixed.Point26_6) { o.x, o.y = places(a) }

func (o *outliner) Add1(b fixed.Point26_6) { o.to(places(b)) }

func (o *outliner) to(x, y float64) {
	o.line(o.x, o.y, x, y)
	o.x, o.y = x, y
}

// Add2 adds a quadratic curve.
func (o *outliner) Add2(b, c fixed.Point26_6) {
	x0, y0 := o.x, o.y
	x1, y1 := places(b)
	x2, y2 := places(c)
	for i := 1; i < o.pieces; i++ {
		t := float64(i) / float64(o.pieces)
		u := 1 - t
		p, q, r := float64(u*u), float64(2*u*t), float64(t*t)
		o.to(float64(p*x0)+float64(q*x1)+float64(r*x2), float64(p*y0)+float64(q*y1)+float64(r*y2))
	}
	o.to(x2, y2)
}

// Add3 adds a cubic curve.
func (o *outliner) Add3(b, c, d fixed.Point26_6) {
	x0, y0 := o.x, o.y
	x1, y1 := places(b)
	x2, y2 := places(c)
	x3, y3 := places(d)
	for i := 1; i < o.pieces; i++ {
		t := float64(i) / float64(o.pieces)
		u := 1 - t
		p, q, r, s := float64(u*u*u), float64(3*u*u*t), float64(3*u*t*t), float64(t*t*t)
		o.to(float64(p*x0)+float64(q*x1)+float64(r*x2)+float64(s*x3), float64(p*y0)+float64(q*y1)+float64(r*y2)+float64(s*y3))
	}
	o.to(x3, y3)
}
