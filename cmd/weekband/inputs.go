package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/soil"
	"weekband/grid/source"
	"weekband/grid/weeks"
	"weekband/regions"
	"weekband/regions/places"
)

// inputs is what a recipe names, opened and checked.
type inputs struct {
	dir     string // of the recipe
	normals *source.Normals
	sd      *source.Normals // nil without
	areas   regions.Set
	places  []places.Place
	files   []string // all that were read, as the recipe names them
	notes   []string // what the user should know
}

// openInputs opens everything at once, so that a wrong place list does not
// show only after the long work. The error joins what is wrong with each.
func openInputs(r *recipe.Recipe, dir string) (*inputs, error) {
	in := &inputs{dir: dir}
	var wrong []error
	var err error
	if in.normals, err = in.openNormals(r.Normals.Files, r.Normals, false); err != nil {
		wrong = append(wrong, fmt.Errorf("normals: %w", err))
	}
	if len(r.Normals.SD) > 0 {
		if in.sd, err = in.openNormals(r.Normals.SD, r.Normals, true); err != nil {
			wrong = append(wrong, fmt.Errorf("standard deviations: %w", err))
		}
	}
	for _, file := range r.Regions {
		if err := in.readRegions(file); err != nil {
			wrong = append(wrong, fmt.Errorf("regions: %w", err))
		}
	}
	if r.Places != "" {
		if err := in.readPlaces(r.Places); err != nil {
			wrong = append(wrong, fmt.Errorf("places: %w", err))
		}
	}
	if len(wrong) > 0 {
		in.close()
		return nil, errors.Join(wrong...)
	}
	return in, nil
}

// openNormals opens the files that match the patterns.
func (in *inputs) openNormals(patterns []string, n recipe.Normals, deviation bool) (*source.Normals, error) {
	var paths []string
	for _, pattern := range patterns {
		found, err := filepath.Glob(in.path(pattern))
		if err != nil {
			return nil, fmt.Errorf("pattern %q: %w", pattern, err)
		}
		if len(found) == 0 {
			return nil, fmt.Errorf("no file matches %s; names are relative to the folder of the recipe", in.path(pattern))
		}
		paths = append(paths, found...)
	}
	unit := "auto"
	if n.Unit != 0 {
		unit = n.Unit.String()
	}
	normals, err := source.OpenNormals(paths, source.NormalsOptions{Variable: n.Variable, Unit: unit, Deviation: deviation})
	if err != nil {
		return nil, err
	}
	in.notes = append(in.notes, normals.Notes()...)
	for _, p := range paths {
		in.used(p)
	}
	return normals, nil
}

func (in *inputs) readRegions(file recipe.Regions) error {
	path := in.path(file.File)
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	set, err := regions.Decode(f, path, regions.Options{Object: file.Object, ID: file.ID, Name: file.Name})
	if err != nil {
		return err
	}
	for _, r := range set.Regions {
		if other, twice := in.areas.ByID(r.ID); twice {
			return fmt.Errorf("%s: region %q has the id %q, which %q of an earlier file has too; every region needs its own", path, r.Name, r.ID, other.Name)
		}
	}
	in.areas.Regions = append(in.areas.Regions, set.Regions...)
	in.notes = append(in.notes, set.Warnings...)
	in.used(path)
	return nil
}

func (in *inputs) readPlaces(name string) error {
	path := in.path(name)
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	if in.places, err = places.Decode(f, path); err != nil {
		return err
	}
	in.used(path)
	return nil
}

// keepOnGrid leaves out regions that lie wholly off the grid of the normals,
// such as far islands, with a note.
func (in *inputs) keepOnGrid() {
	box := in.normals.Grid().Box()
	in.areas.Regions = slices.DeleteFunc(in.areas.Regions, func(r regions.Region) bool {
		off := !r.Bounds.Overlaps(box)
		if off {
			in.notes = append(in.notes, fmt.Sprintf("region %s (%s) lies outside the normals and is left out", r.Name, r.ID))
		}
		return off
	})
}

// path returns where a file of the recipe lies.
func (in *inputs) path(name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(in.dir, name)
}

// used remembers a file that was read, by its name relative to the recipe.
func (in *inputs) used(path string) {
	if rel, err := filepath.Rel(in.dir, path); err == nil && filepath.IsLocal(rel) {
		path = filepath.ToSlash(rel)
	}
	if !slices.Contains(in.files, path) {
		in.files = append(in.files, path)
	}
}

func (in *inputs) close() {
	for _, n := range []*source.Normals{in.normals, in.sd} {
		if n != nil {
			n.Close() // only read from: nothing is lost
		}
	}
}

// computeOptions turns the recipe's soil into the model of the core.
func computeOptions(r *recipe.Recipe, in *inputs) weeks.Options {
	opts := weeks.Options{Soil: &soil.Default}
	if in.sd != nil {
		opts.SD = in.sd
	}
	if r.Normals.Measures == recipe.SoilTemp || r.Soil.None {
		opts.Soil = &soil.Air
		return opts
	}
	opts.Depth = soil.NewConduction(soil.OffsetDepth, r.Soil.Depth, soil.DefaultDiffusivity)
	return opts
}
