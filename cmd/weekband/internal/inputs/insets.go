package inputs

import (
	"fmt"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/regions"
)

// Part is what an inset shows.
type Part struct {
	recipe.Inset
	Areas regions.Set
	Held  grid.Box // around the ground in its box
}

// Parted takes the insets out of the regions. It returns an error when an
// inset holds no ground or nothing is left for the main map.
func Parted(areas regions.Set, insets []recipe.Inset) (main regions.Set, parts []Part, err error) {
	main = areas
	for i, inset := range insets {
		p := Part{Inset: inset}
		p.Areas, main, p.Held = main.Apart(inset.Box)
		if len(p.Areas.Regions) == 0 {
			return main, nil, fmt.Errorf("insets[%d] %q: its box (%v) holds no region that has normals; the regions lie within %v; move the box or leave the inset out",
				i+1, inset.Title, inset.Box, areas.Bounds())
		}
		parts = append(parts, p)
	}
	if len(insets) > 0 && len(main.Regions) == 0 {
		return main, nil, fmt.Errorf("insets: their boxes hold all regions, so that nothing is left for the main map; leave one of them out")
	}
	return main, parts, nil
}

// CheckInsets returns an error when the insets do not suit the regions, before
// the long work.
func (in *Set) CheckInsets(insets []recipe.Inset) error {
	if len(in.Areas.Regions) == 0 {
		return nil
	}
	_, _, err := Parted(in.Areas, insets)
	return err
}
