package render

// slack is how far, in tenths of a pixel, a thinned line may be from what it
// was.
const slack = 1.5

// meshed returns the shapes of pieces thinned together, so that neighbours
// keep the edges they share.
func meshed(pieces []Piece) []*Path {
	paths := make([]*Path, len(pieces))
	for i, p := range pieces {
		paths[i] = p.Shape
	}
	return newMesh(paths, slack).paths()
}

// outlineOf returns the thinned outline of what a clip shows; a rectangle
// stays as it is.
func outlineOf(inside *Path) *Path {
	if _, ok := inside.rect(); ok {
		return inside
	}
	return newMesh([]*Path{inside}, slack).union()
}
