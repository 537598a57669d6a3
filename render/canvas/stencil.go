package canvas

import "weekband/render/plane"

// Stencil is a path that drawing shows through. The zero value lets nothing
// show.
type Stencil struct {
	path  *plane.Path
	masks *masks // nil unless many pages use it
}

// Through returns a path as a stencil.
func Through(p *plane.Path) Stencil { return Stencil{path: p} }

// ThroughOften is Through of a path for many pages that draw nothing outside a
// room: a back end may keep what it covers there. The path must not change.
func ThroughOften(p *plane.Path, room plane.Rect) Stencil {
	return Stencil{path: p, masks: &masks{room: room}}
}

// Path returns the path. It must not change.
func (s Stencil) Path() *plane.Path {
	if s.path == nil {
		return &plane.Path{}
	}
	return s.path
}
