package output

import (
	"os"

	"weekband/regions"
	"weekband/regions/polygons"
)

// PublishedRegions reads the edition's region polygons, called by their titles;
// an edition may have none.
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
