package render

import (
	"math"

	"weekband/grid"
	"weekband/render/carto"
)

// Sight is what a script needs to tell which position a place on a picture
// shows, and where a position stands. Lengths are layout pixels of the page,
// so a picture shown at another width is measured in shares of Width first.
// Its JSON is meant for pixelToPosition and positionToPixel in
// render/site/script/sight.js.
type Sight struct {
	Width  float64     `json:"width"`
	Height float64     `json:"height"`
	Frames []SightArea `json:"frames"` // insets, then the main map; none on a page without a map
}

// SightArea is one map of a picture. Insets come first, since they lie on the
// main map.
type SightArea struct {
	Box    [4]float64  `json:"box"`              // what it covers on the page: left, top, right, bottom
	Ground *[4]float64 `json:"ground,omitempty"` // of an inset, all it shows: west, south, east, north
	Mesh   sightMesh   `json:"mesh"`
}

// window is a map on a page: what it covers, its frame within that, and how
// positions come there.
type window struct {
	box    Rect
	frame  Rect
	view   view
	ground grid.Box // of an inset; zero for the main map
}

// windows returns the maps of a page, insets first. A page without a map, or
// with many, has none.
func (p *Page) windows() []window {
	if p.view.projection == nil {
		return nil
	}
	return append(p.insets[:len(p.insets):len(p.insets)], window{box: p.Layout.Frame, frame: p.Layout.Frame, view: p.view})
}

// Sight returns the sight of a page with one map and its insets; that of other
// pages has no frames. Positions read from it are at most 0.3 layout pixels
// off. Ground that the projection shows at the very edge of the earth, within
// some forty pixels of where it ends, may be missing. Pages whose maps stand
// alike have equal sights.
func (p *Page) Sight() Sight {
	s := Sight{Width: p.Layout.Width, Height: p.Layout.Height, Frames: []SightArea{}}
	for _, w := range p.windows() {
		a := SightArea{Box: corners(w.box), Mesh: newSightMesh(w.view, w.frame)}
		if w.ground != (grid.Box{}) {
			a.Ground = &[4]float64{w.ground.West, w.ground.South, w.ground.East, w.ground.North}
		}
		s.Frames = append(s.Frames, a)
	}
	return s
}

func corners(r Rect) [4]float64 {
	return [4]float64{inHundredths(r.Left), inHundredths(r.Top), inHundredths(r.Right), inHundredths(r.Bottom)}
}

// Position returns the position that a place on the page shows, longitude in
// [-180, 180]. What an inset covers belongs to the inset. ok is false on its
// words and outside all maps, and on a page without a map or with many.
func (p *Page) Position(at carto.Pixel) (where grid.LonLat, ok bool) {
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
func (p *Page) Spot(where grid.LonLat) (at carto.Pixel, ok bool) {
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
	return carto.Pixel{}, false
}

func inHundredths(v float64) float64 { return math.Round(v*100) / 100 }

// covered reports whether an inset lies over a place.
func (p *Page) covered(at carto.Pixel) bool {
	for _, w := range p.insets {
		if w.box.Contains(at) {
			return true
		}
	}
	return false
}
