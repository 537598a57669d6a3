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

// mostNamed is how many of a list a note names.
const mostNamed = 8

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
	hint := swapHint(turned, len(off))
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

// swapHint tells that regions off the grid would lie on it, had they longitude
// first; so many of all.
func swapHint(turned, all int) string {
	switch turned {
	case 0:
		return ""
	case all:
		return "; with latitude and longitude swapped they would lie there: write longitude first"
	}
	return fmt.Sprintf("; %d of them would lie there with latitude and longitude swapped", turned)
}

// swapped returns a box with longitude taken for latitude.
func swapped(b grid.Box) grid.Box {
	return grid.Box{West: b.South, East: b.North, South: b.West, North: b.East}
}

// FirstOf lists names for a note: up to eight, or how many there are and the first
// eight.
func FirstOf(names []string) string {
	if len(names) <= mostNamed {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%d in all, the first are %s", len(names), strings.Join(names[:mostNamed], ", "))
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
