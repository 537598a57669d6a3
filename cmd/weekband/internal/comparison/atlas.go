package comparison

import (
	"fmt"
	"strconv"

	"weekband/cmd/weekband/internal/atlas"
	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/shift"
	"weekband/grid/weeks"
	"weekband/render"
)

// shiftAtlas returns what the maps of a comparison share: outlines, towns,
// insets and size of the newer edition.
func (c *Comparison) shiftAtlas() (*render.Atlas, error) {
	known, err := c.newer.lookup.PlaceList()
	if err != nil {
		return nil, err
	}
	looks, err := looksOf(c.newer.made.Recipe)
	if err != nil {
		return nil, fmt.Errorf("%s: %s: %w; build the edition again", c.newer.dir, publish.Marker, err)
	}
	looks.Language = c.words()
	t, err := atlas.Territory(&recipe.Recipe{Looks: looks}, &inputs.Set{Areas: c.newer.areas, Places: known}, groundOf(c.windows[0].field))
	if err != nil {
		return nil, err
	}
	return render.NewAtlas(t, looks.Size)
}

// looksOf returns insets and size of maps from the settings of a manifest, which
// older editions lack.
func looksOf(settings map[string]string) (l recipe.Looks, err error) {
	l.Size = recipe.DefaultSize
	if size, ok := settings["size"]; ok {
		if l.Size, err = strconv.Atoi(size); err != nil || l.Size < recipe.LeastSize || l.Size > recipe.MostSize {
			return l, fmt.Errorf("size %q; want pixels, %d to %d", size, recipe.LeastSize, recipe.MostSize)
		}
	}
	for i := 1; ; i++ {
		key := fmt.Sprintf("insets[%d].", i)
		edges, ok := settings[key+"box"]
		if !ok {
			return l, nil
		}
		inset := recipe.Inset{Title: settings[key+"title"]}
		b := &inset.Box
		if _, err := fmt.Sscanf(edges, "[%g, %g, %g, %g]", &b.West, &b.South, &b.East, &b.North); err != nil {
			return l, fmt.Errorf("%sbox %q; want [west, south, east, north]", key, edges)
		}
		l.Insets = append(l.Insets, inset)
	}
}

// groundOf returns a field that has a reason where either has normals, for the
// outline of a map without regions.
func groundOf(f *shift.Field) *weeks.Field {
	out := &weeks.Field{Day: f.Days, Reason: grid.NewRaster[crossing.Reason](f.Grid())}
	for cell := range f.Fate.All() {
		out.Reason.Set(cell, crossing.Dated)
	}
	return out
}
