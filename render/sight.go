package render

import (
	"math"

	"weekband/grid"
	"weekband/render/plane"
)

// Sight is what a script needs to tell which position a place on a picture
// shows, and where a position stands. Lengths are layout pixels of the page,
// so a picture shown at another width is measured in shares of Width first.
// Its JSON is meant for pixelToPosition and positionToPixel in
// render/site/script/sight.js.
type Sight struct {
	Width  float64     `json:"width"`
	Height float64     `json:"height"`
	Frames []SightArea `json:"frames"` // insets, then the main map
}

// SightArea is one map of a picture. Insets come first, since they lie on the
// main map.
type SightArea struct {
	Box    [4]float64  `json:"box"`              // what it covers on the page: left, top, right, bottom
	Ground *[4]float64 `json:"ground,omitempty"` // of an inset, all it shows: west, south, east, north
	Mesh   sightMesh   `json:"mesh"`
}

// Sight returns the sight of the map and its insets. Positions read from it are
// at most 0.3 layout pixels off. Ground that the projection shows at the very
// edge of the earth, within some forty pixels of where it ends, may be missing.
// Pages whose maps stand alike have equal sights.
func (p *Map) Sight() Sight {
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

func corners(r plane.Rect) [4]float64 {
	return [4]float64{inHundredths(r.Left), inHundredths(r.Top), inHundredths(r.Right), inHundredths(r.Bottom)}
}

func inHundredths(v float64) float64 { return math.Round(v*100) / 100 }
