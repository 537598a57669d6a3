package source

import (
	"errors"
	"fmt"
	"runtime"
	"slices"
	"sync"

	"weekband/grid"
	"weekband/grid/units"
)

// NormalsOptions set how normals are read. The zero value is the default.
type NormalsOptions struct {
	Variable string // of NetCDF files; "" takes the only one on a grid
	Unit     string // auto, C, F, K, 0.1C or 0.1F; "" is auto
	// Deviation says that the numbers are differences, such as standard
	// deviations: they are scaled, but no zero point is taken off. Unit must
	// be given or stand in the files then.
	Deviation  bool
	CacheBytes int64 // for decoded blocks of all files together; 0 is 96 MB
}

// Normals are 12 monthly or 365 daily layers of temperatures on one grid.
type Normals struct {
	grid   grid.Grid
	layers []layer
	files  []Layers
	scale  units.Scale
	diff   bool
	notes  []string
	why    string
	looked []sampled // of some rows of every month; nil before
}

// layer is one month or day: layer index of a file.
type layer struct {
	from  Layers
	index int
}

// Rows holds some rows of all layers. It is meant to be used again for
// every block of rows: Read grows it when needed and then leaves it.
type Rows struct {
	// Vals holds the values of each layer in °C (kelvins of difference for
	// deviations), rows × columns long.
	Vals [][]float32
	// Has tells for each cell whether it has a value in every layer: with one
	// month missing there are no normals. Where it is false the values mean
	// nothing.
	Has []bool
	// Partial counts the cells of the block that have a value in some layers
	// only.
	Partial int

	one   []bool
	any   []bool
	store []float32
}

// OpenNormals opens one file with 12 or 365 layers, or 12 files with one
// layer each, and finds the order of the months and the unit. It returns an
// error that names the files when their number or layers do not fit, months
// are missing or twice, they do not share a grid, or the unit cannot be told.
func OpenNormals(paths []string, opts NormalsOptions) (*Normals, error) {
	n := &Normals{diff: opts.Deviation}
	err := n.open(paths, opts)
	if err == nil {
		err = n.join(paths)
	}
	if err == nil {
		err = n.findUnit(opts.Unit)
	}
	if err == nil {
		err = n.checkMonths()
	}
	if err != nil {
		return nil, errors.Join(err, n.Close())
	}
	return n, nil
}

// open opens all files, some at a time: counting the values of an ASCII grid
// takes a while.
func (n *Normals) open(paths []string, opts NormalsOptions) error {
	if len(paths) != 1 && len(paths) != 12 {
		return countError(paths)
	}
	cache := opts.CacheBytes
	if cache == 0 {
		cache = 96 << 20
	}
	n.files = make([]Layers, len(paths))
	errs := make([]error, len(paths))
	var wg sync.WaitGroup
	tickets := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i, path := range paths {
		wg.Go(func() {
			tickets <- struct{}{}
			n.files[i], errs[i] = Open(path, Options{Variable: opts.Variable, CacheBytes: cache / int64(len(paths))})
			<-tickets
		})
	}
	wg.Wait()
	n.files = slices.DeleteFunc(n.files, func(l Layers) bool { return l == nil })
	return errors.Join(errs...)
}

// join puts the layers of the files into order.
func (n *Normals) join(paths []string) error {
	first := n.files[0]
	n.grid = first.Grid()
	if len(paths) == 1 {
		return n.joinOne(first)
	}
	order, note, err := monthOrder(paths)
	if err != nil {
		return err
	}
	if byTime, ok := n.timeOrder(); ok && note != "" {
		order, note = byTime, ""
	}
	if note != "" {
		n.notes = append(n.notes, note)
	}
	for _, i := range order {
		l := n.files[i]
		if l.Count() != 1 {
			return fmt.Errorf("%s: %d layers in one of 12 files; want one layer in each", paths[i], l.Count())
		}
		if !l.Grid().Matches(n.grid) {
			return fmt.Errorf("%s: its grid is not that of %s\n    %v\n    %v\n    bring all months to one grid first", paths[i], paths[0], l.Grid(), n.grid)
		}
		if a, b := l.Describe().Unit, first.Describe().Unit; a != b {
			return fmt.Errorf("%s: its unit is %q, but that of %s is %q; bring all months to one unit first", paths[i], a, paths[0], b)
		}
		n.layers = append(n.layers, layer{from: l})
		n.addNotes(l)
	}
	return nil
}

// timeOrder returns the files in order of the months their times give; ok is
// false when they do not give each month once.
func (n *Normals) timeOrder() (order []int, ok bool) {
	order = slices.Repeat([]int{-1}, 12)
	for i, f := range n.files {
		if m := f.Describe().Months; len(m) == 1 {
			order[m[0]-1] = i
		}
	}
	return order, !slices.Contains(order, -1)
}

func (n *Normals) joinOne(l Layers) error {
	order, note, err := layerOrder(l)
	if err != nil {
		return err
	}
	if note != "" {
		n.notes = append(n.notes, note)
	}
	for _, i := range order {
		n.layers = append(n.layers, layer{from: l, index: i})
	}
	n.addNotes(l)
	return nil
}

// addNotes takes over a file's notes that no earlier file gave.
func (n *Normals) addNotes(l Layers) {
	for _, note := range l.Describe().Notes {
		if !slices.Contains(n.notes, note) {
			n.notes = append(n.notes, note)
		}
	}
}

// Grid returns the grid of all layers.
func (n *Normals) Grid() grid.Grid { return n.grid }

// Layers returns the number of layers, 12 or 365.
func (n *Normals) Layers() int { return len(n.layers) }

// Scale returns the scale of the files, and why it was taken for that.
func (n *Normals) Scale() (units.Scale, string) { return n.scale, n.why }

// Notes returns what a user should know, such as months ordered by guess.
func (n *Normals) Notes() []string { return n.notes }

// Describe says what the file of the first layer tells about itself.
func (n *Normals) Describe() Description { return n.layers[0].from.Describe() }

// Files returns the file and its layer for each month or day, in order.
func (n *Normals) Files() []string {
	out := make([]string, len(n.layers))
	for i, l := range n.layers {
		out[i] = l.from.Describe().Name
		if l.from.Count() > 1 {
			out[i] += fmt.Sprintf(", layer %d", l.index+1)
		}
	}
	return out
}

// ChunkRows returns how many rows to read at a time so that Rows takes no
// more than the given bytes, at least 1. Where it can, it returns a multiple
// or a whole part of the rows that the files decode together: in a tiled file
// whose row of tiles does not fit into the cache, every further read from the
// same tiles decodes some of them again.
func (n *Normals) ChunkRows(bytes int64) int {
	perRow := int64(n.grid.Cols()) * (4*int64(len(n.layers)) + 3)
	rows := int(max(1, min(bytes/perRow, int64(n.grid.Rows()))))
	block := n.Describe().BlockRows
	if block <= 1 || rows == n.grid.Rows() {
		return rows
	}
	if rows >= block {
		return rows / block * block
	}
	parts := (block + rows - 1) / rows
	return max(1, (block+parts-1)/parts)
}

// Close closes all files.
func (n *Normals) Close() error {
	var errs []error
	for _, f := range n.files {
		errs = append(errs, f.Close())
	}
	return errors.Join(errs...)
}
