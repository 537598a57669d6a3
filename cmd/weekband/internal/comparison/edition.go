package comparison

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"weekband/cmd/weekband/internal/cause"
	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/shift"
	"weekband/grid/source"
	"weekband/grid/table"
	"weekband/regions"
	"weekband/regions/shifts"
	"weekband/render/lookup"
	"weekband/render/tables"
)

// builtEdition is a built edition that is read back to be compared.
type builtEdition struct {
	dir     string
	made    cause.Manifest
	lookup  *lookup.Edition // nil for an edition whose lookups have another format
	reasons []*grid.Raster[crossing.Reason]
	lines   []shifts.Line // of its table of regions; none without regions
	areas   regions.Set   // of an edition that lends its outlines
	notes   []string
}

// openBuilt opens an edition's folder. One that lends its words and outlines
// must be readable whole; of another one, which an earlier weekband may have
// written, lookups of another format are only noted.
func openBuilt(dir string, lends bool) (*builtEdition, error) {
	p := &builtEdition{dir: dir}
	if err := p.read(lends); err != nil {
		return nil, fmt.Errorf("%s: %w", dir, err)
	}
	return p, nil
}

func (p *builtEdition) read(lends bool) (err error) {
	if _, err := os.Stat(filepath.Join(p.dir, comparisonFile)); err == nil {
		return errors.New("this is a comparison of two editions; want the folder of an edition")
	}
	fsys := os.DirFS(p.dir)
	if p.made, err = cause.Read(fsys); err != nil {
		return err
	}
	if p.lookup, err = lookup.Open(fsys); err != nil && lends {
		return err
	}
	if err != nil {
		p.notes = append(p.notes, fmt.Sprintf("the older edition: %v; it is compared without them: why some of its ground has no week is not known", err))
	} else if p.reasons, err = p.lookup.Reasons(); err != nil {
		return err
	}
	if lends {
		if p.areas, err = output.PublishedRegions(p.dir); err != nil {
			return err
		}
	}
	p.lines, err = p.table()
	return err
}

// table reads the table of regions.
func (p *builtEdition) table() ([]shifts.Line, error) {
	f, err := os.Open(filepath.Join(p.dir, output.TableCSV))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%s is missing; build the edition again", output.TableCSV)
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return tables.ReadRegions(table.Text{Reader: f, Name: output.TableCSV})
}

// linesOf returns the lines of a window.
func (p *builtEdition) linesOf(window string) (out []shifts.Line) {
	for _, l := range p.lines {
		if l.Window == window {
			out = append(out, l)
		}
	}
	return out
}

// layer reads the days of a window, and the reasons for having none.
func (p *builtEdition) layer(window string) (shift.Layer, error) {
	days, err := readDays(filepath.Join(p.dir, output.GridFile(window)))
	if errors.Is(err, fs.ErrNotExist) {
		return shift.Layer{}, fmt.Errorf("%s: %s is missing, though the manifest tells of that window; build the edition again", p.dir, output.GridFile(window))
	}
	if err != nil {
		return shift.Layer{}, err
	}
	l := shift.Layer{Day: days}
	if p.lookup == nil {
		return l, nil
	}
	for i, w := range p.lookup.Windows {
		if w.ID == window {
			l.Reason = p.reasons[i]
		}
	}
	if l.Reason == nil || !l.Reason.Grid().Matches(days.Grid()) {
		return l, fmt.Errorf("%s: %s and %s tell of different windows or grids; build the edition again", p.dir, output.GridFile(window), lookup.IndexFile)
	}
	return l, nil
}

// readDays reads a grid of crossing days that an edition holds.
func readDays(path string) (*grid.Raster[float32], error) {
	l, err := source.Open(path, source.Options{})
	if err != nil {
		return nil, err
	}
	defer l.Close()
	if l.Count() != 1 {
		return nil, fmt.Errorf("%s: %d layers; want one, of crossing days", path, l.Count())
	}
	return inputs.ReadRaster(l, path, func(v float32) error {
		if !(v >= 1 && v < 366) {
			return fmt.Errorf("day %g is outside 1 to 366; build the edition again", v)
		}
		return nil
	})
}
