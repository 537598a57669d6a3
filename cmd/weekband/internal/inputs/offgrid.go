package inputs

import (
	"fmt"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/regions"
	"weekband/regions/zonal"
)

// named is how many regions a note names.
const named = 8

// KeepOnGrid leaves out regions that lie wholly off the grid of the normals,
// such as far islands, with a note that names the first of them. That none
// lies on the grid is an error. Places off the grid are noted.
func (in *Set) KeepOnGrid(files []recipe.Regions) error {
	in.notePlaces()
	box := in.Normals.Grid().Box()
	all, given := len(in.Areas.Regions), in.Areas.Bounds()
	var off []string
	turned := 0
	in.Areas.Regions = slices.DeleteFunc(in.Areas.Regions, func(r regions.Region) bool {
		if r.Bounds.Overlaps(box) {
			return false
		}
		off = append(off, r.Name)
		if swapped(r.Bounds).Overlaps(box) {
			turned++
		}
		return true
	})
	hint := ""
	switch {
	case turned == len(off) && turned > 0:
		hint = "; with latitude and longitude swapped they would lie there: write longitude first"
	case turned > 0:
		hint = fmt.Sprintf("; %d of them would lie there with latitude and longitude swapped", turned)
	}
	if all > 0 && len(off) == all {
		var names []string
		for _, f := range files {
			names = append(names, f.File)
		}
		return fmt.Errorf("regions: %s: all %d lie outside the normals: the regions span %v, the normals %v; name polygons of the same ground%s",
			strings.Join(names, ", "), all, given, box, hint)
	}
	if len(off) > 0 {
		in.Notes = append(in.Notes, fmt.Sprintf("outside the normals and left out: %s%s", FirstOf(off), hint))
	}
	return nil
}

// notePlaces says which places have no answer because they lie off the grid of
// the normals.
func (in *Set) notePlaces() {
	box := in.Normals.Grid().Box()
	off, first := 0, ""
	for _, p := range in.Places {
		if box.Contains(p.At) {
			continue
		}
		if off++; off == 1 {
			first = p.Name
		}
	}
	if off > 0 {
		in.Notes = append(in.Notes, fmt.Sprintf("%d of %d places lie outside the normals, the first is %s; are lat and lon right, north and east positive?", off, len(in.Places), first))
	}
}

// swapped returns a box with longitude taken for latitude.
func swapped(b grid.Box) grid.Box {
	return grid.Box{West: b.South, East: b.North, South: b.West, North: b.East}
}

// FirstOf lists a few names, or the first of many.
func FirstOf(names []string) string {
	if len(names) <= named {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%d in all, the first are %s", len(names), strings.Join(names[:named], ", "))
}

// leastOverlap is the part of its ground from which a region counts as lying
// over another: borders that were thinned or digitised apart leave slivers.
const leastOverlap = 0.01

// NoteOverlaps tells which regions lie over others: ground they share counts
// for each of them.
func (in *Set) NoteOverlaps(covers []zonal.Coverage) {
	var list []string
	for _, o := range zonal.Overlaps(covers) {
		part := o.AreaKm2 / covers[o.Region].Area()
		if part < leastOverlap {
			continue
		}
		mine, other := in.Areas.Regions[o.Region], in.Areas.Regions[o.Other]
		how := fmt.Sprintf("at least %d %%", int(100*part))
		if part > 1-leastOverlap {
			how = "all"
		}
		list = append(list, fmt.Sprintf("%s (id %s), %s of it over %s (id %s)", mine.Name, mine.ID, how, other.Name, other.ID))
	}
	if len(list) > 0 {
		in.Notes = append(in.Notes, "regions lie over earlier ones, and ground they share counts for each of them: "+FirstOf(list))
	}
}
