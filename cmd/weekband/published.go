package main

import (
	"os"

	"weekband/regions"
)

// publishedRegions reads the edition's region polygons, called by their titles;
// an edition may have none.
func publishedRegions(out string) (regions.Set, error) {
	root, err := os.OpenRoot(out)
	if err != nil {
		return regions.Set{}, err
	}
	defer root.Close()
	f, err := root.Open(regionsFile)
	if os.IsNotExist(err) {
		return regions.Set{}, nil
	}
	if err != nil {
		return regions.Set{}, err
	}
	defer f.Close()
	return regions.Decode(f, regionsFile, regions.Options{ID: "id", Name: "title"})
}
