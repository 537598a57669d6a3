package output

import (
	"io"
	"os"

	"weekband/regions"
	"weekband/regions/polygons"
)

// writeRegions writes the polygons of regions with their ids, names and titles.
func writeRegions(w io.Writer, set regions.Set) error {
	out := polygons.NewEncoder(w)
	titles := set.Titles()
	for i, r := range set.Regions {
		properties := []polygons.Property{{Key: "id", Value: r.ID}, {Key: "name", Value: r.Name}, {Key: "title", Value: titles[i]}}
		if err := out.Write(polygons.Feature{ID: r.ID, Properties: properties, Shape: r.Shape}); err != nil {
			return err
		}
	}
	return out.Close()
}

// PublishedRegions reads the region polygons of the edition in a folder back,
// called by their titles; an edition may have none.
func PublishedRegions(out string) (regions.Set, error) {
	root, err := os.OpenRoot(out)
	if err != nil {
		return regions.Set{}, err
	}
	defer root.Close()
	f, err := root.Open(RegionsFile)
	if os.IsNotExist(err) {
		return regions.Set{}, nil
	}
	if err != nil {
		return regions.Set{}, err
	}
	defer f.Close()
	return polygons.Decode(f, RegionsFile, polygons.Options{ID: "id", Name: "title"})
}
