package render

import (
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"

	"weekband/grid"
	"weekband/render/canvas"
	"weekband/render/lettering"
	"weekband/render/plane"
	"weekband/render/press"
)

// inset is a small map at its place on the page: its title over it, its scale
// below.
type inset struct {
	box   plane.Rect
	scene *scene
	held  grid.Box // what it shows
	words []canvas.Text
	bar   *plane.Path // nil when there is no room for one, or it would not be honest: words say that the scale is another
}

// insetSize is the room an inset takes: pads around, title lines above the
// map and lines below it.
type insetSize struct {
	font             canvas.Font
	title            []string
	pad, head, foot  float64
	width, mapHeight float64
}

// sizeOf returns the room for an inset width pixels wide and at most tall
// high; a tall one becomes narrower, but no narrower than least. ok is false
// when its map would be lost in it.
func (a *Atlas) sizeOf(title string, width, tall, least, unit float64) (z insetSize, ok bool) {
	z = insetSize{font: canvas.Font{Face: canvas.Bold, Size: press.SmallSize(unit)}, pad: 0.4 * unit}
	z.foot = 2.4 * z.font.Size
	aspect := a.bounds.Height() / a.bounds.Width()
	for range 2 { // a narrower box may need another line for its title
		z.title = canvas.Wrap(title, z.font, width-float64(2*z.pad))
		z.head = float64(float64(len(z.title))*z.font.Line()) + z.pad
		if room := tall - z.head - z.foot - float64(2*z.pad); (width-float64(2*z.pad))*aspect > room {
			width = max(least, room/aspect+float64(2*z.pad))
		}
	}
	z.width = width
	z.mapHeight = min((width-float64(2*z.pad))*aspect, tall-z.head-z.foot-float64(2*z.pad))
	return z, z.mapHeight >= 1.5*unit
}

func (z insetSize) size() plane.Pixel {
	return plane.Pixel{X: z.width, Y: z.head + z.mapHeight + z.foot + float64(2*z.pad)}
}

// shares are the parts of the frame's width that insets are tried at, and the
// most of its height they take.
var shares = [...]float64{0.3, 0.26, 0.22, 0.19, 0.16, 0.14, 0.12}

const tallest = 0.42

// leastWide is how many units wide an inset is at least, so that its words
// can be read.
const leastWide = 8

// inset finds places for the insets, in the order given: in the free corners
// of the frame, then along its edges, as large as they fit and near where they
// belong; those without room stand below it.
func (s *scene) inset(p *lettering.Placer, t *Atlas) {
	for _, sub := range t.insets {
		s.locate(p, sub)
	}
	var below []int
	for i := range t.insets {
		if !s.insetInFrame(p, t, i) {
			below = append(below, i)
		}
	}
	if len(below) > 0 {
		s.insetBelow(t, below)
	}
}

// insetInFrame places one inset on open ground in the frame.
func (s *scene) insetInFrame(p *lettering.Placer, t *Atlas, i int) bool {
	home := s.view.at(orb.Point{t.insets[i].extent().Center().Lon, t.insets[i].extent().Center().Lat})
	for _, share := range shares {
		width := share * s.frame.Width()
		if width < leastWide*s.unit {
			return false
		}
		z, ok := s.sizeOf(t, i, width, tallest*s.frame.Height(), leastWide*s.unit)
		if !ok {
			continue
		}
		if box, ok := s.openBox(p, z.size(), home); ok {
			p.Keep(box.Grow(0.3 * s.unit))
			s.insets = append(s.insets, newInset(t.insets[i], z, box, s.unit))
			return true
		}
	}
	return false
}

// openBox returns the box of a size over no land and nothing else that stands
// nearest to home, a corner if one is open.
func (s *scene) openBox(p *lettering.Placer, size, home plane.Pixel) (plane.Rect, bool) {
	corners := p.Corners(size)
	for _, boxes := range [...][]plane.Rect{corners[:], p.Along(size)} {
		var best plane.Rect
		found := false
		for _, box := range boxes {
			if found && far(box, home) >= far(best, home) {
				continue
			}
			if near := box.Grow(0.5 * s.unit); p.Free(box) && p.OverLand(near) == 0 && !s.land.Touches(near) {
				best, found = box, true
			}
		}
		if found {
			return best, true
		}
	}
	return plane.Rect{}, false
}

// far is the square of the distance of a box from a place.
func far(box plane.Rect, p plane.Pixel) float64 {
	c := box.Center()
	return float64((c.X-p.X)*(c.X-p.X)) + float64((c.Y-p.Y)*(c.Y-p.Y))
}

// insetBelow places insets in a row under the frame, as high as each other
// where their width allows.
func (s *scene) insetBelow(t *Atlas, which []int) {
	u := s.unit
	gap := float64(0.7 * u)
	n := float64(len(which))
	width := min((s.frame.Width()-float64((n-1)*gap))/n, max(0.4*s.frame.Width(), 12*u))
	tall := max(0.2*s.frame.Width(), 16*u)
	if s.plain {
		tall = max(0.2*s.frame.Width(), leastWide*u)
	}
	left, top := s.frame.Left, s.frame.Bottom+gap
	for _, i := range which {
		z, _ := s.sizeOf(t, i, width, tall, min(width, leastWide*u))
		size := z.size()
		box := plane.Rect{Left: left, Top: top, Right: left + size.X, Bottom: top + size.Y}
		s.insets = append(s.insets, newInset(t.insets[i], z, box, u))
		s.bottom = max(s.bottom, box.Bottom)
		left = box.Right + gap
	}
}

// locate outlines the extent of an inset where its ground is shown here, too,
// and keeps words off the outline.
func (s *scene) locate(p *lettering.Placer, t *Atlas) {
	b := t.extent()
	outline := s.lines([]orb.LineString{{{b.West, b.South}, {b.East, b.South}, {b.East, b.North}, {b.West, b.North}, {b.West, b.South}}})
	if bounds := outline.Bounds(); bounds.Overlaps(s.frame) && s.land.Touches(bounds) {
		s.locators.Append(outline)
		for _, l := range outline.Lines {
			for k := 1; k < len(l.Points); k++ {
				p.KeepLine(l.Points[k-1], l.Points[k])
			}
		}
	}
}

// newInset makes the small map in its box.
func newInset(t *Atlas, z insetSize, box plane.Rect, unit float64) inset {
	u := max(press.MinText, 0.85*unit)
	frame := plane.Rect{Left: box.Left + z.pad, Right: box.Right - z.pad, Top: box.Top + z.pad + z.head, Bottom: box.Bottom - z.pad - z.foot}
	s, regions := bareScene(t, frame, u, 0.4*u)
	s.grain = unit
	s.shows = within(shown(s.view, frame))
	i := inset{box: box, scene: s, held: t.extent()}
	if z.foot == 0 { // without words
		return i
	}
	s.name(lettering.NewPlacer(frame, u, plane.NewCover(s.land, 2)), t, regions)
	at := plane.Pixel{X: frame.Left, Y: box.Top + z.pad + z.font.Ascent()}
	for _, line := range z.title {
		i.words = append(i.words, canvas.Text{At: at, String: line, Font: z.font, Color: canvas.TextInk})
		at.Y += z.font.Line()
	}
	i.scale(canvas.Font{Face: canvas.Regular, Size: z.font.Size}, z)
	return i
}

// scale writes below the small map what its scale is.
func (i *inset) scale(font canvas.Font, z insetSize) {
	frame := i.scene.frame
	if bar, ok := newScaleBar(i.scene.screen, frame, 0.6); ok && font.Width(bar.label(i.scene.lang)) <= frame.Width() {
		at := plane.Pixel{X: frame.Center().X - bar.pixels/2, Y: frame.Bottom + z.foot - float64(0.1*font.Size)}
		path, text := bar.at(at, font, i.scene.lang)
		i.bar, i.words = path, append(i.words, text)
		return
	}
	lines := canvas.Wrap(i.scene.lang.Map.OtherScale, font, frame.Width())
	at := plane.Pixel{X: frame.Left, Y: frame.Bottom + z.foot - float64(0.3*font.Size) - float64(float64(len(lines)-1)*font.Line())}
	for _, line := range lines {
		i.words = append(i.words, canvas.Text{At: at, String: line, Font: font, Color: canvas.LesserInk})
		at.Y += font.Line()
	}
}

// within returns what cuts shapes to a box.
func within(box grid.Box) func(orb.MultiPolygon) orb.MultiPolygon {
	const aside = 0.05 // of the box, so that no cut shows at the frame
	x, y := float64(aside*(box.East-box.West)), float64(aside*(box.North-box.South))
	bound := orb.Bound{Min: orb.Point{box.West - x, box.South - y}, Max: orb.Point{box.East + x, box.North + y}}
	return func(shape orb.MultiPolygon) orb.MultiPolygon {
		var out orb.MultiPolygon
		for _, polygon := range shape {
			if !bound.Intersects(polygon.Bound()) {
				continue
			}
			if part := clip.Polygon(bound, polygon.Clone()); len(part) > 0 { // clip overwrites what it is given
				out = append(out, part)
			}
		}
		return out
	}
}

// inset draws a small map over the main one.
func (p *Map) inset(i inset, f figure) {
	p.Layout.Insets = append(p.Layout.Insets, i.box)
	p.insets = append(p.insets, window{box: i.box, frame: i.scene.frame, view: i.scene.view, ground: i.held})
	p.Layout.Dropped = append(p.Layout.Dropped, i.scene.dropped...)
	outline := plane.RectPath(i.box)
	p.Add(func(c canvas.Canvas) { c.Fill(outline, canvas.Paper) })
	drawGround(p.Page, i.scene, f)
	drawLines(p.Page, i.scene)
	u := i.scene.unit
	p.Stroke(outline, canvas.Pen{Color: canvas.LesserInk, Width: max(1, u*0.07)})
	if i.bar != nil {
		p.Stroke(i.bar, canvas.Pen{Color: canvas.LesserInk, Width: max(1, u*0.09)})
	}
	for _, t := range i.words {
		p.Text(press.InsetText, t)
	}
}

// projections names the projection of the map and those of its insets.
func (a *Atlas) projections() string {
	words := a.Language.Map.Projection(a.Projection)
	for i, sub := range a.insets {
		words += " " + a.Language.Map.InsetProjection(a.Insets[i].Title, sub.Projection)
	}
	return words
}

// withoutInsets adds to a caption that a page leaves out the insets.
func (a *Atlas) withoutInsets(c press.Caption) press.Caption {
	if len(a.Insets) == 0 {
		return c
	}
	var titles []string
	for _, i := range a.Insets {
		titles = append(titles, i.Title)
	}
	c.Source = strings.TrimSpace(c.Source) + " " + a.Language.Map.WithoutInsets(titles)
	return c
}
