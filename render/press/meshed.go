package press

import (
	"weekband/render/canvas"
	"weekband/render/plane"
)

// slack is how far, in tenths of a pixel, a thinned line may be from what it
// was.
const slack = 1.5

// meshed returns the shapes of pieces thinned together, so that neighbours
// keep the edges they share.
func meshed(pieces []canvas.Piece) []*plane.Path {
	paths := make([]*plane.Path, len(pieces))
	for i, p := range pieces {
		paths[i] = p.Shape
	}
	return plane.NewMesh(paths, slack).Paths()
}

// outlineOf returns the thinned outline of what a clip shows; a rectangle
// stays as it is.
func outlineOf(inside *plane.Path) *plane.Path {
	if _, ok := inside.AsRect(); ok {
		return inside
	}
	return plane.NewMesh([]*plane.Path{inside}, slack).Union()
}
