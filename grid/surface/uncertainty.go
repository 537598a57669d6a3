package surface

import (
	"sync"

	"weekband/grid"
	"weekband/grid/source"
)

// Uncertainty hands out the standard errors of a Surface, twelve layers in K,
// by rows like the normals themselves. They cost several times what the
// normals cost; they are smooth, so a coarser surface will do.
type Uncertainty struct {
	s       *Surface
	scratch sync.Pool
}

// Uncertainty returns the standard errors of the surface.
func (s *Surface) Uncertainty() *Uncertainty {
	u := &Uncertainty{s: s}
	u.scratch.New = func() any { return new(source.Rows) }
	return u
}

// Grid returns the grid of all layers.
func (u *Uncertainty) Grid() grid.Grid { return u.s.Grid() }

// Layers returns 12.
func (u *Uncertainty) Layers() int { return months }

// Read fills dst with rows [first, first+rows) of all months, as ReadErrors
// does.
func (u *Uncertainty) Read(first, rows int, dst *source.Rows) error {
	normals := u.scratch.Get().(*source.Rows)
	defer u.scratch.Put(normals)
	return u.s.ReadErrors(first, rows, normals, dst)
}
