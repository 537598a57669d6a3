package atlas

import (
	"slices"

	"github.com/paulmach/orb"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid"
	"weekband/grid/weeks"
	"weekband/regions"
	"weekband/regions/bands"
	"weekband/regions/places"
	"weekband/render"
)

// Territory returns what all maps share: the regions with lines thinned to
// what a picture can show, or, without regions, the outline of the cells.
func Territory(r *recipe.Recipe, in *inputs.Set, f *weeks.Field) (render.Territory, error) {
	areas := in.Areas
	if len(areas.Regions) == 0 {
		outline, err := landOf(f)
		if err != nil {
			return render.Territory{}, err
		}
		areas.Regions = []regions.Region{{Shape: outline, Bounds: regions.BoundsOf(outline)}}
	}
	main, parts, err := inputs.Parted(areas, r.Insets)
	if err != nil {
		return render.Territory{}, err
	}
	lines := len(in.Areas.Regions) > 0
	t := outlined(main, main.Bounds(), float64(r.Size*tracing.MapScale), lines)
	t.Language = r.Language
	if r.Relief {
		t.Terrain = in.Terrain
	}
	for _, p := range parts {
		inset := render.Inset{Title: p.Title, Territory: outlined(p.Areas, p.Held, tracing.InsetPixels, lines)}
		inset.Extent = p.Held
		t.Insets = append(t.Insets, inset)
	}
	for _, p := range labelled(in.Places) {
		to := &t
		for i, part := range parts {
			if part.Box.Contains(p.At) {
				to = &t.Insets[i].Territory
			}
		}
		to.Places = append(to.Places, render.Place{Name: p.Name, At: p.At, Rank: p.Rank})
	}
	return t, nil
}

// mostUnranked is how many places without a rank are a list of towns; more are
// one of postal codes or the like, which a map does not name.
const mostUnranked = 1000

// labelled returns the places that maps may name.
func labelled(list []places.Place) []places.Place {
	ranked := slices.ContainsFunc(list, func(p places.Place) bool { return p.Rank > 0 })
	if !ranked && len(list) > mostUnranked {
		return nil
	}
	return list
}

// outlined returns regions for a map of a box, which is pixels wide, with the
// lines between them if asked for.
func outlined(areas regions.Set, box grid.Box, pixels float64, lines bool) render.Territory {
	var t render.Territory
	if !lines {
		for _, r := range areas.Regions {
			t.Regions = append(t.Regions, render.Region{Shape: r.Shape})
		}
		return t
	}
	topology := areas.Topology()
	topology.Simplify(min(box.East-box.West, box.North-box.South) / pixels)
	for i, shape := range topology.Shapes() {
		t.Regions = append(t.Regions, render.Region{Name: areas.Regions[i].Name, Shape: shape})
	}
	t.Borders, t.Coast = topology.Inner(), topology.Outer()
	return t
}

// landOf returns the outline of the cells that have normals.
func landOf(f *weeks.Field) (orb.MultiPolygon, error) {
	class := grid.NewRaster[uint8](f.Grid())
	for cell := range f.Reason.All() {
		class.Set(cell, 1)
	}
	set, err := bands.Trace(bands.Field{Day: grid.NewRaster[float32](f.Grid()), Class: class}, nil, bands.Options{})
	if err != nil || len(set.Bands) == 0 {
		return nil, err
	}
	return set.Bands[0].Shape, nil
}
