package render

import (
	"image"
	"math"
	"slices"
	"strings"
	"sync"

	"github.com/paulmach/orb"

	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
)

// figure is a map before it is laid out: what BandMap and StatusMap share.
type figure struct {
	caption press.Caption
	areas   []area
	marks   []area // drawn over the areas, pattern only
	covers  []area // painted over both
	legend  legend
	week    string // the big label, empty for none
	grey    bool
	relief  bool // shade the ground by the terrain's slopes
}

// area is ground painted in one way.
type area struct {
	shape orb.MultiPolygon
	look  canvas.Look
}

// tall is the height of a map over its width from which its legend stands
// beside it.
const tall = 1.0

// frameAspect is the height of a map's frame over its width: that of the
// territory unless it is very long or very tall.
func (a *Atlas) frameAspect() float64 {
	return max(0.45, min(1.35, a.bounds.Height()/a.bounds.Width()))
}

// compose lays a figure out: title, map, legend, source and cautions.
func (a *Atlas) compose(f figure) *Map {
	u := a.unit
	margin := math.Round(1.5 * u)
	p := a.blank(a.width, 0, f.grey)
	y := p.Header(f.caption, u, plane.Rect{Left: margin, Top: margin, Right: a.width - margin})
	p.EndHead(y, u)
	frame := plane.Rect{Left: margin, Top: y, Right: a.width - margin}
	aspect := a.bounds.Height() / a.bounds.Width()
	beside := aspect >= tall && a.width >= 560 && len(f.legend.entries) > 0
	if beside {
		frame.Right -= math.Round(f.legend.columnWidth(u) + float64(1.2*u))
	}
	frame.Bottom = frame.Top + math.Round(frame.Width()*a.frameAspect())
	below := a.paint(p, f, frame)
	if beside {
		column := plane.Rect{Left: frame.Right + math.Round(1.2*u), Top: frame.Top, Right: a.width - margin}
		bottom := f.legend.column(p.Page, u, column)
		y = max(below, bottom) + u
	} else {
		y = f.legend.strip(p.Page, u, plane.Rect{Left: margin, Top: below + float64(0.9*u), Right: a.width - margin}) + float64(0.7*u)
	}
	y = footer(p.Page, f.caption, a.projections(), u, plane.Rect{Left: margin, Top: y, Right: a.width - margin})
	p.Layout.Height = math.Ceil(y + float64(margin*0.7))
	return p
}

// footer writes cautions, source and projection and returns the y under them.
func footer(p *press.Page, c press.Caption, projection string, u float64, room plane.Rect) float64 {
	c.Source = strings.TrimSpace(strings.TrimSpace(c.Source) + " " + projection)
	return p.Credits(c, u, room)
}

// paint draws the map into its frame, its insets there or below, and returns
// the y under them.
func (a *Atlas) paint(p *Map, f figure, frame plane.Rect) float64 {
	s := a.sceneOf(f, frame)
	p.Layout.Frame, p.view = frame, s.view
	p.Layout.Dropped = append(p.Layout.Dropped, s.dropped...)
	drawGround(p.Page, s, f)
	drawLines(p.Page, s)
	if f.week != "" {
		p.Text(press.WeekLabel, s.weekText(f.week, weekFont(a.unit)))
	}
	for _, i := range s.insets {
		p.inset(i, f)
	}
	return s.bottom
}

// sceneOf returns the scene of a figure in a frame.
func (a *Atlas) sceneOf(f figure, frame plane.Rect) *scene {
	var week plane.Pixel
	if f.week != "" {
		big := weekFont(a.unit)
		week = plane.Pixel{X: widestWeek(big, a.Language), Y: big.Line()}
	}
	return a.scene(sceneKey{frame: frame, unit: a.unit, week: week, names: true})
}

// drawLines draws the lines and names of a scene and notes where the names stand.
func drawLines(p *press.Page, s *scene) {
	p.Add(func(c canvas.Canvas) { s.framed(c, func(c canvas.Canvas) { c.Layer(s.above) }) })
	for _, l := range s.labels {
		for _, t := range l.Lines {
			p.Note(l.Kind, t)
		}
	}
	for _, t := range s.graticule.labels {
		p.Note(press.GraticuleLabel, t)
	}
	for _, n := range s.norths {
		p.Note(press.NorthLabel, n.letter)
	}
	if s.scale != nil {
		p.Note(press.ScaleLabel, s.scaleText)
	}
}

// drawGround draws the areas of a figure, on land only.
func drawGround(p *press.Page, s *scene, f figure) {
	areas := slices.Concat(f.areas, f.marks, f.covers) // as paintAreas takes their paths
	shapes := make([]orb.MultiPolygon, len(areas))
	for i, a := range areas {
		shapes[i] = s.shows(a.shape)
	}
	paths := func() []*plane.Path { return s.shapes(shapes) }
	if f.week == "" { // else one of many frames, whose paths are made when it is painted, lest all be there at a time
		paths = sync.OnceValue(paths)
	}
	firm := s.firm
	if s.land.Empty() {
		firm = canvas.Through(plane.RectPath(s.frame))
	}
	var veil *image.NRGBA
	if f.relief {
		veil = s.relief()
	}
	p.Add(func(c canvas.Canvas) {
		s.framed(c, func(c canvas.Canvas) {
			c.Layer(s.below)
			c.Clip(firm, func(c canvas.Canvas) {
				c.Fill(plane.RectPath(s.frame), canvas.BareGround)
				paintAreas(c, f, paths(), s.grain)
				if veil != nil {
					c.Image(veil, s.frame)
				}
			})
		})
	})
}

// paintAreas fills the areas without seams and draws the patterns over them.
// The paths are those of the areas, the marks and the covers of the figure.
func paintAreas(c canvas.Canvas, f figure, paths []*plane.Path, unit float64) {
	areas, rest := paths[:len(f.areas)], paths[len(f.areas):]
	marks, covers := rest[:len(f.marks)], rest[len(f.marks):]
	pieces := make([]canvas.Piece, len(areas))
	for i, a := range f.areas {
		pieces[i] = canvas.Piece{Shape: areas[i], Color: a.look.Tone}
	}
	c.Mosaic(pieces)
	for i, a := range f.areas {
		a.look.PaintPattern(c, areas[i], unit)
	}
	for i, m := range f.marks {
		m.look.PaintPattern(c, marks[i], unit)
	}
	for i, v := range f.covers {
		v.look.Paint(c, covers[i], unit)
	}
}
