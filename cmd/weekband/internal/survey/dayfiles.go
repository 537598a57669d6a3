package survey

import (
	"errors"
	"fmt"
	"os"
	"path"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/source/geotiff"
	"weekband/grid/weeks"
)

// dayFiles are the crossing grids of all windows on their way to files, and
// those of their errors.
type dayFiles struct {
	list []*dayFile
	has  []bool
}

// dayFile is one of them.
type dayFile struct {
	name   string
	window int
	error  bool // whether it holds errors
	file   *os.File
	grid   *geotiff.Writer
	vals   []float32
}

// openDays begins the files, with those of errors if wanted and known.
func openDays(root *os.Root, r *recipe.Recipe, in *inputs.Set, errorsToo bool) (d *dayFiles, err error) {
	if err := root.MkdirAll(path.Dir(output.GridFile("")), 0o755); err != nil {
		return nil, err
	}
	d = new(dayFiles)
	add := func(f dayFile, opts geotiff.WriteOptions) (err error) {
		if f.file, err = root.Create(f.name); err != nil {
			return err
		}
		d.list = append(d.list, &f)
		if f.grid, err = geotiff.NewWriter(f.file, in.Normals.Grid(), 1, opts); err != nil {
			return fmt.Errorf("%s: %w", f.name, err)
		}
		return nil
	}
	for i, w := range r.Windows {
		err := add(dayFile{name: output.GridFile(w.ID), window: i}, output.DayOptions)
		if err == nil && errorsToo && (in.SE != nil || in.Offsets != nil) {
			err = add(dayFile{name: output.ErrorFile(w.ID), window: i, error: true}, output.ErrorOptions)
		}
		if err != nil {
			return nil, errors.Join(err, d.close(false))
		}
	}
	return d, nil
}

// write appends the rows of a block.
func (d *dayFiles) write(b *weeks.Block) error {
	for _, f := range d.list {
		strip := &b.Windows[f.window]
		d.has = d.has[:0]
		for _, r := range strip.Reason {
			d.has = append(d.has, r.HasDay())
		}
		vals := strip.Day
		if f.error {
			f.vals = f.vals[:0]
			for _, v := range strip.Error {
				f.vals = append(f.vals, output.RoundedError(v))
			}
			vals = f.vals
		}
		if err := f.grid.WriteRows(0, vals, d.has); err != nil {
			return fmt.Errorf("%s: %w", f.name, err)
		}
	}
	return nil
}

// close closes all files, after their last lines when they are complete.
func (d *dayFiles) close(complete bool) (err error) {
	for _, f := range d.list {
		if complete {
			if e := f.grid.Close(); e != nil {
				err = errors.Join(err, fmt.Errorf("%s: %w", f.name, e))
			}
		}
		err = errors.Join(err, f.file.Close())
	}
	return err
}
