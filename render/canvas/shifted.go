package canvas

import (
	"image"
	"image/color"
	"math"

	"weekband/render/plane"
)

// ShiftedBy returns a canvas on which all that is drawn stands elsewhere on
// another by a distance. On pixels that is free for whole ones, and layers that
// are drawn here and there are painted once.
func ShiftedBy(c Canvas, by plane.Pixel) Canvas {
	switch c := c.(type) {
	case greyed:
		return greyed{to: ShiftedBy(c.to, by)}
	case *Bitmap:
		x, y := by.X*c.scale, by.Y*c.scale
		if x == math.Trunc(x) && y == math.Trunc(y) {
			moved := *c
			moved.origin = c.origin.Sub(image.Pt(int(x), int(y)))
			return &moved
		}
	}
	return shifted{to: c, by: by}
}

// shifted is a Canvas that passes everything on as it stands elsewhere.
type shifted struct {
	to Canvas
	by plane.Pixel
}

func (s shifted) Fill(p *plane.Path, c color.NRGBA) { s.to.Fill(p.Moved(s.by), c) }

func (s shifted) Stroke(p *plane.Path, pen Pen) { s.to.Stroke(p.Moved(s.by), pen) }

func (s shifted) Dots(at []plane.Pixel, radius float64, c color.NRGBA) {
	s.to.Dots(plane.MovePixels(at, s.by), radius, c)
}

func (s shifted) Mosaic(pieces []Piece) {
	moved := make([]Piece, len(pieces))
	for i, p := range pieces {
		moved[i] = Piece{Shape: p.Shape.Moved(s.by), Color: p.Color}
	}
	s.to.Mosaic(moved)
}

func (s shifted) Clip(inside Stencil, draw func(Canvas)) {
	s.to.Clip(Through(inside.Path().Moved(s.by)), func(c Canvas) { draw(ShiftedBy(c, s.by)) })
}

func (s shifted) Image(im *image.NRGBA, r plane.Rect) {
	s.to.Image(im, plane.Rect{Left: r.Left + s.by.X, Right: r.Right + s.by.X, Top: r.Top + s.by.Y, Bottom: r.Bottom + s.by.Y})
}

func (s shifted) Text(t Text) {
	t.At = plane.Pixel{X: t.At.X + s.by.X, Y: t.At.Y + s.by.Y}
	s.to.Text(t)
}

func (s shifted) Layer(l *Layer) { l.Draw(s) }
