package inputs

import (
	"fmt"
	"os"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/regions/polygons"
)

func (in *Set) readRegions(file recipe.Regions) error {
	path := in.path(file.File)
	opened, err := in.AsJSON(path, file.Object)
	if err != nil {
		return err
	}
	f, err := os.Open(opened)
	if err != nil {
		return err
	}
	defer f.Close()
	set, err := polygons.Decode(f, path, polygons.Options{Object: file.Object, ID: file.ID, Name: file.Name, Within: file.Within})
	if err != nil {
		return err
	}
	for _, r := range set.Regions {
		if other, twice := in.Areas.ByID(r.ID); twice {
			return fmt.Errorf("%s: region %q has the id %q, which %q of an earlier file has too; every region needs its own", path, r.Name, r.ID, other.Name)
		}
	}
	in.Areas.Regions = append(in.Areas.Regions, set.Regions...)
	in.Notes = append(in.Notes, set.Warnings...)
	return nil
}
