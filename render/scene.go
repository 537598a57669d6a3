package render

import (
	"image"
	"sync"

	"github.com/paulmach/orb"

	"weekband/render/canvas"
	"weekband/render/lettering"
	"weekband/render/plane"
	"weekband/render/press"
	"weekband/render/wording"
)

// leastBordered is the mean ground of a region, px², from which on borders are
// drawn: of smaller ones the lines would cover a good part of the shades.
const leastBordered = 40

// scene is the territory projected into a frame: all that the maps of a
// series share.
type scene struct {
	view
	lang      *wording.Language
	frame     plane.Rect
	unit      float64
	grain     float64        // the unit of its patterns, as in the legend
	land      *plane.Path    // all regions
	firm      canvas.Stencil // the land, to paint on
	borders   *plane.Path
	plain     bool // neither names nor words, in insets either
	fine      bool // regions so small that their borders must not veil the shades
	coast     *plane.Path
	graticule graticule
	scale     *plane.Path // nil when no scale bar is honest
	scaleText canvas.Text
	norths    []arrow    // where north is not up
	emptiest  plane.Rect // the corner for the week's label
	labels    []lettering.Label
	dropped   []string
	insets    []inset
	bottom    float64                                 // under the frame and the insets below it
	locators  *plane.Path                             // outlines of insets on ground that is shown here too
	shows     func(orb.MultiPolygon) orb.MultiPolygon // the part of a shape to draw
	below     *canvas.Layer                           // what lies under the shaded ground
	above     *canvas.Layer                           // lines and names over it
	quiet     *canvas.Layer                           // of a plain scene, its land
	relief    func() *image.NRGBA                     // the veil over its ground, nil without a terrain
}

// newScene projects the territory. week is the size of the room to keep for a
// label in the emptiest corner, zero for none; without names neither regions
// nor places are labelled, and there is neither graticule nor scale bar.
func newScene(t *Atlas, frame plane.Rect, unit float64, week plane.Pixel, names bool) *scene {
	s, regions := bareScene(t, frame, unit, unit*0.9)
	p := lettering.NewPlacer(frame, unit, plane.NewCover(s.land, 3))
	s.emptiest = p.Emptiest(week)
	if !names {
		return s
	}
	if week != (plane.Pixel{}) {
		p.Keep(s.emptiest)
	}
	s.inset(p, t)
	s.furnish(p)
	s.name(p, t, regions)
	return s
}

// bareScene projects the territory and nothing else. It returns the path of
// each region, too.
func bareScene(t *Atlas, frame plane.Rect, unit, margin float64) (*scene, []*plane.Path) {
	s := &scene{lang: t.Language, frame: frame, unit: unit, grain: unit, bottom: frame.Bottom, graticule: graticule{lines: &plane.Path{}}, locators: &plane.Path{}}
	s.view = t.fit(frame, margin)
	s.shows = func(shape orb.MultiPolygon) orb.MultiPolygon { return shape }
	s.relief = sync.OnceValue(func() *image.NRGBA {
		if t.Terrain == nil {
			return nil
		}
		return newRelief(s.view, frame, t.Terrain)
	})
	shapes := make([]orb.MultiPolygon, len(t.Regions))
	for i, r := range t.Regions {
		shapes[i] = r.Shape
	}
	regions := s.shapes(shapes)
	s.land = &plane.Path{}
	for _, r := range regions {
		s.land.Append(r)
	}
	s.firm = canvas.ThroughOften(s.land, frame)
	s.borders, s.coast = s.lines(t.Borders), s.lines(t.Coast)
	if t.Borders == nil && t.Coast == nil {
		s.borders = s.land.Thinned()
	}
	region := s.land.Area() / float64(max(1, len(regions)))
	s.fine = region < 9*unit*unit
	if t.Borders != nil && region < leastBordered {
		s.borders = &plane.Path{}
	}
	s.below, s.above = canvas.NewLayer(frame, s.under), canvas.NewLayer(frame, s.over)
	return s, regions
}

// furnish adds the graticule and the scale bar and keeps room for them.
func (s *scene) furnish(p *lettering.Placer) {
	font := canvas.Font{Face: canvas.Regular, Size: press.SmallSize(s.unit)}
	s.graticule = newGraticule(s.view, s.frame, font, s.lang)
	if bar, box, ok := s.barAndRoom(p, font); ok {
		at := plane.Pixel{X: box.Center().X - bar.pixels/2, Y: box.Bottom - float64(font.Size*0.4)}
		s.scale, s.scaleText = bar.at(at, font, s.lang)
		if p.OverLand(box) > 0 || s.land.Touches(box) {
			s.scaleText.Halo = 0.2 * font.Size
		}
		p.Keep(box)
	}
	s.norths = s.arrows(p, font)
	var kept []canvas.Text
	for _, t := range s.graticule.labels {
		if p.Free(t.Bounds()) && p.OverLand(t.Bounds()) == 0 {
			kept = append(kept, t)
			p.Keep(t.Bounds())
		}
	}
	s.graticule.labels = kept
}

// barAndRoom returns the scale bar and a free place for it: a corner with
// little land, or, when insets stand in those, one along the edges.
func (s *scene) barAndRoom(p *lettering.Placer, font canvas.Font) (bar scaleBar, box plane.Rect, ok bool) {
	bar, ok = newScaleBar(s.screen, s.frame, 0.22)
	if !ok {
		return bar, box, false
	}
	room := plane.Pixel{X: max(bar.pixels, font.Width(bar.label(s.lang))) + s.unit, Y: font.Size * 2.2}
	if box = p.Emptiest(room); p.Free(box) {
		return bar, box, true
	}
	for _, box := range p.Along(room) {
		if p.Free(box) && p.OverLand(box) == 0 {
			return bar, box, true
		}
	}
	return bar, box, len(s.insets) == 0
}

// name places the names of regions and places.
func (s *scene) name(p *lettering.Placer, t *Atlas, regions []*plane.Path) {
	var spots []lettering.Spot
	for _, pl := range t.Places {
		spots = append(spots, lettering.Spot{Name: pl.Name, Rank: pl.Rank, At: s.screen.Pixel(s.projection.Forward(pl.At))})
	}
	spots = p.Choose(spots)
	names := make([]string, len(t.Regions))
	for i, r := range t.Regions {
		names[i] = r.Name
	}
	p.Regions(names, regions, spots)
	p.Places(spots)
	s.labels, s.dropped = p.Labels, p.Dropped
}

// framed runs draw so that nothing shows outside the frame. Land that lies
// wholly in it needs no clipping.
func (s *scene) framed(c canvas.Canvas, draw func(canvas.Canvas)) {
	inside := func(p *plane.Path) bool { return p.Empty() || p.Bounds().Within(s.frame) }
	if inside(s.land) && inside(s.coast) && inside(s.borders) {
		draw(c)
		return
	}
	c.Clip(canvas.Through(plane.RectPath(s.frame)), draw)
}

// under draws what lies below the shaded ground.
func (s *scene) under(c canvas.Canvas) {
	c.Fill(plane.RectPath(s.frame), ground)
	c.Stroke(s.graticule.lines, canvas.Pen{Color: canvas.GuideInk, Width: max(0.8, s.unit*0.06)})
	if !s.coast.Empty() {
		c.Stroke(s.coast, canvas.Pen{Color: shoreGlow, Width: s.unit * 0.4})
	}
}

// over draws lines and names on the shaded ground.
func (s *scene) over(c canvas.Canvas) {
	thin := max(0.7, s.unit*0.055)
	if s.fine {
		c.Stroke(s.borders, canvas.Pen{Color: fineGlow, Width: 1.1 * thin})
		c.Stroke(s.borders, canvas.Pen{Color: canvas.FineInk, Width: 0.5 * thin})
	} else {
		c.Stroke(s.borders, canvas.Pen{Color: borderGlow, Width: 2.4 * thin})
		c.Stroke(s.borders, canvas.Pen{Color: canvas.FineInk, Width: thin})
	}
	if !s.coast.Empty() {
		c.Stroke(s.coast, canvas.Pen{Color: canvas.LineInk, Width: 1.6 * thin})
	}
	if !s.locators.Empty() {
		c.Stroke(s.locators, canvas.Pen{Color: canvas.Casing, Width: 3 * thin})
		c.Stroke(s.locators, canvas.Pen{Color: canvas.LesserInk, Width: 1.2 * thin})
	}
	for _, l := range s.labels {
		if l.Leader != nil {
			c.Stroke(l.Leader, canvas.Pen{Color: canvas.Casing, Width: 2.6 * thin})
			c.Stroke(l.Leader, canvas.Pen{Color: canvas.TextInk, Width: thin})
		}
		if l.Dot != nil {
			c.Stroke(l.Dot, canvas.Pen{Color: canvas.HaloInk, Width: s.unit * 0.22})
			c.Fill(l.Dot, canvas.TextInk)
		}
	}
	for _, l := range s.labels {
		for _, t := range l.Lines {
			c.Text(t)
		}
	}
	for _, t := range s.graticule.labels {
		c.Text(t)
	}
	for _, n := range s.norths {
		c.Stroke(n.shaft, canvas.Pen{Color: canvas.LesserInk, Width: max(1, s.unit*0.09)})
		c.Fill(n.head, canvas.LesserInk)
		c.Text(n.letter)
	}
	if s.scale != nil {
		if s.scaleText.Halo > 0 {
			c.Stroke(s.scale, canvas.Pen{Color: canvas.HaloInk, Width: 3 * max(1, s.unit*0.09)})
		}
		c.Stroke(s.scale, canvas.Pen{Color: canvas.LesserInk, Width: max(1, s.unit*0.09)})
		c.Text(s.scaleText)
	}
}
