package render

// Stencil is a path that drawing shows through. The zero value lets nothing
// show.
type Stencil struct {
	path  *Path
	masks *masks // nil unless many pages use it
}

// Through returns a path as a stencil.
func Through(p *Path) Stencil { return Stencil{path: p} }

// ThroughOften is Through of a path for many pages that draw nothing outside a
// room: a back end may keep what it covers there. The path must not change.
func ThroughOften(p *Path, room Rect) Stencil {
	return Stencil{path: p, masks: &masks{room: room}}
}

// Path returns the path. It must not change.
func (s Stencil) Path() *Path {
	if s.path == nil {
		return &Path{}
	}
	return s.path
}
