package render

import (
	"image/color"
	"math"

	"github.com/paulmach/orb"

	"weekband/grid/status"
	"weekband/render/canvas"
	"weekband/render/looks"
	"weekband/render/plane"
	"weekband/render/press"
)

// quietLand is the land of a map that only says where something is.
var quietLand = color.NRGBA{R: 0xd3, G: 0xda, B: 0xde, A: 255}

// quietly draws the land of a plain scene and its insets, borders in white.
func (s *scene) quietly(c canvas.Canvas) {
	c.Fill(s.land, quietLand)
	if !s.fine {
		c.Stroke(s.borders, canvas.Pen{Color: canvas.Paper, Width: 1.2})
	}
	for _, i := range s.insets {
		c.Fill(plane.RectPath(i.box), canvas.Paper)
		c.Clip(canvas.Through(plane.RectPath(i.scene.frame)), i.scene.quietly)
		c.Stroke(plane.RectPath(i.box), canvas.Pen{Color: canvas.GuideInk, Width: 1.5})
	}
}

// cardLand draws the land with the region marked.
func (a *Atlas) cardLand(p cardPage, c Card, frame plane.Rect) {
	s := a.cardScene(frame)
	p.Layout.Frame, p.view = frame, s.view
	for _, i := range s.insets {
		p.Layout.Insets = append(p.Layout.Insets, i.box)
	}
	p.Add(func(c canvas.Canvas) { c.Layer(s.quiet) })
	mark := looks.Statuses[status.OnTime].Tone
	outline := s.outlineIn(c.Region.Shape)
	p.Add(func(c canvas.Canvas) {
		c.Fill(outline, mark)
		c.Stroke(outline, canvas.Pen{Color: mark, Width: 1})
	})
	if b, small := s.small(c.Region.Shape); small {
		var ring plane.Path
		ring.AddRing(plane.Polygon(b.Center(), max(11, math.Hypot(b.Width(), b.Height())/2+5), 48)...)
		p.Stroke(&ring, canvas.Pen{Color: canvas.Paper, Width: 7})
		p.Stroke(&ring, canvas.Pen{Color: mark, Width: 4})
	}
}

// editionCard draws the card of an edition: its title, and its map with the
// classes below.
func (a *Atlas) editionCard(p cardPage, c Card, room plane.Rect) error {
	f := figure{}
	if c.Map != nil {
		if err := c.Map.check(); err != nil {
			return err
		}
		f = c.Map.figure(a.Language)
		f.relief = false // too small to show it
	}
	left, right := room, room
	left.Right = room.Left + float64(0.36*room.Width())
	right.Left = left.Right + 40
	if c.Map != nil {
		right.Bottom -= keyGap + measure(f.legend.short, right)
	}
	frame := a.cardFrame(right, right.Width())
	down := math.Round(max(0, right.Bottom-a.cardScene(frame).bottom) / 2)
	frame.Top, frame.Bottom = frame.Top+down, frame.Bottom+down
	s := a.cardScene(frame)
	p.Layout.Frame, p.view = frame, s.view
	p.Add(func(c canvas.Canvas) { c.Layer(s.quiet) })
	if c.Map != nil {
		p.shade(s, f)
		for _, i := range s.insets {
			p.Layout.Insets = append(p.Layout.Insets, i.box)
			p.shade(i.scene, f)
		}
		f.legend.short(p.Page, plane.Rect{Left: right.Left, Right: right.Right, Top: right.Bottom + keyGap})
	}
	p.cardTitle(c, 62, left)
	return nil
}

// keyGap is the room between a card's map and its classes.
const keyGap = 12

// shade paints the areas of a figure on the land of a plain scene.
func (p cardPage) shade(s *scene, f figure) {
	var shapes []orb.MultiPolygon
	for _, list := range [...][]area{f.areas, f.marks, f.covers} {
		for _, a := range list {
			shapes = append(shapes, s.shows(a.shape))
		}
	}
	paths := s.shapes(shapes)
	p.Add(func(c canvas.Canvas) {
		s.framed(c, func(c canvas.Canvas) {
			c.Clip(s.firm, func(c canvas.Canvas) { paintAreas(c, f, paths, cardUnit) })
			if !s.fine {
				c.Stroke(s.borders, canvas.Pen{Color: canvas.FineInk, Width: 0.9})
			}
			c.Stroke(s.coast, canvas.Pen{Color: canvas.LineInk, Width: 1.3})
		})
	})
}

// short lays a legend out in little room: the classes as one bar with the words
// of the first and the last, other ground in lines below. It returns the y
// under them.
func (l legend) short(p *press.Page, room plane.Rect) float64 {
	y := room.Top
	font := canvas.Font{Face: canvas.Regular, Size: 19}
	if n := len(l.entries); n > 0 {
		y = p.Lines(press.LegendText, []string{l.heading}, canvas.Text{At: room.TopLeft(), Font: canvas.Font{Face: canvas.Bold, Size: font.Size}, Color: canvas.TextInk}) + 4
		wide := room.Width() / float64(n)
		for i, e := range l.entries {
			left := room.Left + float64(float64(i)*wide)
			p.Swatch(plane.Rect{Left: left, Right: left + wide, Top: y, Bottom: y + 22}, e.look, cardUnit)
		}
		p.Stroke(plane.RectPath(plane.Rect{Left: room.Left, Right: room.Right, Top: y, Bottom: y + 22}), canvas.Pen{Color: canvas.FineInk, Width: 1})
		base := y + 26 + font.Ascent()
		p.Text(press.LegendText, canvas.Text{At: plane.Pixel{X: room.Left, Y: base}, String: l.entries[0].label, Font: font, Color: canvas.TextInk})
		if n > 1 {
			p.Text(press.LegendText, canvas.Text{At: plane.Pixel{X: room.Right, Y: base}, Anchor: canvas.End, String: l.entries[n-1].label, Font: font, Color: canvas.TextInk})
		}
		y += 26 + font.Line()
	}
	if len(l.others) == 0 {
		return y
	}
	x := room.Left
	for _, e := range l.others {
		if x > room.Left && x+40+font.Width(e.label) > room.Right {
			x, y = room.Left, y+font.Line()
		}
		swatch := plane.Rect{Left: x, Right: x + 32, Top: y + 6, Bottom: y + 24}
		p.Swatch(swatch, e.look, cardUnit)
		p.Text(press.LegendText, canvas.Text{At: plane.Pixel{X: x + 40, Y: y + 4 + font.Ascent()}, String: e.label, Font: font, Color: canvas.TextInk})
		x += 40 + font.Width(e.label) + 28
	}
	return y + 6 + font.Line()
}
