package render

import (
	"weekband/grid"
	"weekband/render/plane"
	"weekband/render/press"
)

// Map is a page with a map on it, and where on it positions stand.
type Map struct {
	*press.Page
	view   view
	insets []window
}

// window is a map on a page: what it covers, its frame within that, and how
// positions come there.
type window struct {
	box    plane.Rect
	frame  plane.Rect
	view   view
	ground grid.Box // of an inset; zero for the main map
}

// windows returns the main map and the insets, these first.
func (p *Map) windows() []window {
	if p.view.projection == nil {
		return nil
	}
	return append(p.insets[:len(p.insets):len(p.insets)], window{box: p.Layout.Frame, frame: p.Layout.Frame, view: p.view})
}

// Pixel returns where a position stands on the page, in layout pixels; it may
// lie outside the frame, and is never in an inset.
func (p *Map) Pixel(at grid.LonLat) plane.Pixel {
	return p.view.screen.Pixel(p.view.projection.Forward(at))
}

// Position returns the position that a place on the page shows, longitude in
// [-180, 180]. What an inset covers belongs to the inset. ok is false on its
// words and outside all maps.
func (p *Map) Position(at plane.Pixel) (where grid.LonLat, ok bool) {
	for _, w := range p.windows() {
		if !w.box.Contains(at) {
			continue
		}
		if !w.frame.Contains(at) {
			return grid.LonLat{}, false
		}
		return w.view.projection.Inverse(w.view.screen.Point(at))
	}
	return grid.LonLat{}, false
}

// Spot returns where the page shows a position: in the inset whose ground
// holds it, else on the main map. ok is false when it is shown nowhere.
func (p *Map) Spot(where grid.LonLat) (at plane.Pixel, ok bool) {
	all := p.windows()
	for i, w := range all {
		if i < len(all)-1 && !w.ground.Contains(where) {
			continue
		}
		at := w.view.screen.Pixel(w.view.projection.Forward(where))
		if w.frame.Contains(at) && !(w.ground == (grid.Box{}) && p.covered(at)) {
			return at, true
		}
	}
	return plane.Pixel{}, false
}

// covered reports whether an inset lies over a place.
func (p *Map) covered(at plane.Pixel) bool {
	for _, w := range p.insets {
		if w.box.Contains(at) {
			return true
		}
	}
	return false
}
