package render

import (
	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/render/canvas"
	"weekband/render/lettering"
	"weekband/render/plane"
)

// plainScene projects the territory and its insets for pictures too small for
// a map's words: land and borders only. Insets stand in the frame or below it.
func plainScene(t *Atlas, frame plane.Rect, unit float64) *scene {
	s, _ := bareScene(t, frame, unit, 0.7*unit)
	s.plain = true
	s.inset(lettering.NewPlacer(frame, unit, plane.NewCover(s.land, 2)), t)
	s.locators = &plane.Path{}
	s.quiet = canvas.NewLayer(plane.Rect{Left: frame.Left, Right: frame.Right, Top: frame.Top, Bottom: s.bottom}, s.quietly)
	return s
}

// sizeOf returns the room for inset i: without words on a plain scene.
func (s *scene) sizeOf(t *Atlas, i int, width, tall, least float64) (insetSize, bool) {
	if s.plain {
		return t.insets[i].plainSize(width, tall, least, s.unit)
	}
	return t.insets[i].sizeOf(t.Insets[i].Title, width, tall, least, s.unit)
}

// plainSize returns the room for an inset without words.
func (a *Atlas) plainSize(width, tall, least, unit float64) (z insetSize, ok bool) {
	z = insetSize{pad: float64(0.2 * unit), width: width}
	aspect := a.bounds.Height() / a.bounds.Width()
	if room := tall - float64(2*z.pad); (width-float64(2*z.pad))*aspect > room {
		z.width = max(least, room/aspect+float64(2*z.pad))
	}
	z.mapHeight = min((z.width-float64(2*z.pad))*aspect, tall-float64(2*z.pad))
	return z, z.mapHeight >= unit
}

// outlineIn returns the path of a shape wherever a scene shows it: what
// the insets hold within their frames, the rest on the main map.
func (s *scene) outlineIn(shape orb.MultiPolygon) *plane.Path {
	var main orb.MultiPolygon
	var out plane.Path
	for _, polygon := range shape {
		if !s.insetsHold(polygon) {
			main = append(main, polygon)
		}
	}
	out.Append(s.shape(main))
	for _, i := range s.insets {
		var part orb.MultiPolygon
		for _, polygon := range shape {
			if edgeOf(i.held).Intersects(polygon.Bound()) {
				part = append(part, polygon)
			}
		}
		out.Append(i.scene.shape(part).CutTo(i.scene.frame))
	}
	return &out
}

// insetsHold reports whether an inset holds the whole of a polygon.
func (s *scene) insetsHold(polygon orb.Polygon) bool {
	b := polygon.Bound()
	for _, i := range s.insets {
		if edge := edgeOf(i.held); edge.Contains(b.Min) && edge.Contains(b.Max) {
			return true
		}
	}
	return false
}

func edgeOf(b grid.Box) orb.Bound {
	return orb.Bound{Min: orb.Point{b.West, b.South}, Max: orb.Point{b.East, b.North}}
}
