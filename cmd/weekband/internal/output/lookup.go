package output

import (
	"os"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/weeks"
	"weekband/regions/zonal"
	"weekband/render/lookup"
)

// WriteLookup writes what lookups need.
func WriteLookup(root *os.Root, r *recipe.Recipe, in *inputs.Set, fields []*weeks.Field, covers []zonal.Coverage) error {
	data := lookup.Data{Fields: fields, Covers: covers, Places: in.Places, Regions: LookupRegions(in)}
	return lookup.Write(root, LookupIndex(r, in), data)
}

// LookupIndex returns what lookups tell of an edition.
func LookupIndex(r *recipe.Recipe, in *inputs.Set) lookup.Index {
	x := lookup.Index{
		Language: r.Language.Tag, Dates: r.Language.Order,
		Title: r.Title, Edition: r.Edition, Period: r.Normals.Period, Credits: r.Credits,
		Measures: phrase.Measures(r), Sure: phrase.Sure(r, in), Cautions: r.Language.Sentences.Cautions,
	}
	if r.Normals.Measures == recipe.SoilTemp && r.Soil.Stated || r.Normals.Measures == recipe.Air && !r.Soil.None {
		x.Depth = float64(r.Soil.Depth)
	}
	return x
}

// LookupRegions returns the regions as lookups know them.
func LookupRegions(in *inputs.Set) (list []lookup.Region) {
	pages, titles := Slugs(in.Areas), in.Areas.Titles()
	for i, area := range in.Areas.Regions {
		list = append(list, lookup.Region{Name: titles[i], ID: area.ID, Slug: pages[area.ID], Inside: area.Inside()})
	}
	return list
}
