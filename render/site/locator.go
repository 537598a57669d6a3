package site

import (
	"weekband/render"
)

// TerritoryFile is the small map of the whole territory that the pages of all
// regions share.
const TerritoryFile = "assets/territory.svg"

// Locator is where a region lies: in the territory and among its neighbours.
type Locator struct {
	Width, Height float64 // of the overview, px
	Overview      render.Overview
	Near          render.Near
}

// ground is one region on the near view.
type ground struct {
	Name, Page, Path string
	Own              bool
}

// Surroundings lists the regions on a near view, the page's own last. What the
// edition does not know, such as ground without normals, has no page.
func (v *view) Surroundings() []ground {
	var out []ground
	for _, n := range v.Region.Locator.Near.Regions {
		r := v.order[n.Region]
		out = append(out, ground{Name: r.Name, Page: r.Page(), Path: n.Path, Own: r.ID == v.Region.ID})
	}
	return out
}

// Territory is the file of the overview's land.
func (v *view) Territory() string { return TerritoryFile }

// NearWidth and NearHeight are those of the near view, px.
func (v *view) NearWidth() int  { return render.NearWidth }
func (v *view) NearHeight() int { return render.NearHeight }
