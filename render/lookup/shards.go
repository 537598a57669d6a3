package lookup

import (
	"errors"
	"fmt"
	"os"
	"path"

	"weekband/grid"
	"weekband/grid/abreast"
	"weekband/grid/weeks"
	"weekband/regions/places"
	"weekband/regions/zonal"
)

// shardDir holds all shards.
const shardDir = "data/lookup"

func shardName(row, col int) string { return fmt.Sprintf("%s/%d-%d.js", shardDir, row, col) }

// Data is what lookups answer from. The fields must share a grid; Covers and
// Regions go together, one for one.
type Data struct {
	Fields  []*weeks.Field
	Covers  []zonal.Coverage
	Regions []Region
	Places  []places.Place
}

// Write writes the index and all shards under root, filling in what the index
// tells of grid, windows and shards.
func Write(root *os.Root, x Index, d Data) error {
	if len(d.Covers) != len(d.Regions) {
		panic(fmt.Sprintf("lookup: %d covers of %d regions", len(d.Covers), len(d.Regions)))
	}
	if len(d.Fields) == 0 {
		return (&Writer{root: root, x: &x}).End(nil, d.Regions, d.Places)
	}
	f := d.Fields[0]
	w, err := Begin(root, x, f.Grid(), f.Common != nil && f.Typical != nil)
	if err != nil {
		return err
	}
	runs := runsOf{covers: d.Covers, next: make([]int, len(d.Covers))}
	for row := 0; row < f.Grid().Rows(); row += Band {
		if err := w.Rows(row, 0, d.Fields, runs.upTo(row+Band)); err != nil {
			return err
		}
	}
	return w.End(d.Fields, d.Regions, d.Places)
}

// Band is how many rows a Writer takes at a time.
const Band = blockCells

// Writer writes an edition's lookups rows by rows, from the north.
type Writer struct {
	root *os.Root
	x    *Index
}

// Begin begins the lookups of cells on a grid. The index need not tell of grid,
// windows and shards. years says whether typical years are kept.
func Begin(root *os.Root, x Index, g grid.Grid, years bool) (*Writer, error) {
	if err := root.MkdirAll(shardDir, 0o755); err != nil {
		return nil, fmt.Errorf("lookup shards: %w", err)
	}
	box, p := g.Box(), precisionFor(g.Cells())
	x.Grid = Extent{West: box.West, South: box.South, East: box.East, North: box.North, Rows: g.Rows(), Cols: g.Cols()}
	x.PerDay, x.Scales = p.perDay, p.scales()
	if years {
		x.Years = yearsFor(g.Rows(), g.Cols())
	}
	return &Writer{root: root, x: &x}, nil
}

// Rows writes the shards of the Band rows from first on, or of the last ones.
// The fields hold them from their row first - origin on, but for their typical
// years, which are those of the whole grid; their Cut does not matter. strips
// tell what regions cover of these rows.
func (w *Writer) Rows(first, origin int, fields []*weeks.Field, strips []zonal.Covered) error {
	x := w.x
	main := mainRegions(strips, first, min(Band, x.Grid.Rows-first), x.Grid.Cols)
	row := first / blockCells
	there := make([]byte, (x.Grid.Cols+blockCells-1)/blockCells)
	errs := make([]error, len(there))
	abreast.Each(len(there), func(col int) {
		there[col] = '0'
		b := blockAt(x.Grid.Rows, x.Grid.Cols, row, col, blockCells)
		if parts, any := x.pack(b, origin, fields, main); any {
			there[col] = '1'
			errs[col] = writeBlock(w.root, row, col, parts)
		}
	})
	x.Shards = append(x.Shards, string(there))
	return errors.Join(errs...)
}

// End writes regions, places and the index. The fields tell windows and cuts.
func (w *Writer) End(fields []*weeks.Field, list []Region, known []places.Place) error {
	x := w.x
	if err := w.root.MkdirAll(shardDir, 0o755); err != nil {
		return fmt.Errorf("lookup shards: %w", err)
	}
	x.Format, x.Side, x.Windows = format, blockCells, []Window{}
	for _, f := range fields {
		told := windowOf(&f.Window)
		told.Cut = f.Cut
		x.Windows = append(x.Windows, told)
	}
	if err := writeRegions(w.root, x, list); err != nil {
		return err
	}
	if err := writePlaces(w.root, x, known); err != nil {
		return err
	}
	return writeIndex(w.root, x)
}

// pack returns the parts of a block; any is false where no window tells anything.
// The fields begin at row origin, and main tells of the rows of cells that the
// block lies in.
func (x *Index) pack(b block, origin int, fields []*weeks.Field, main []uint32) (parts [][]byte, any bool) {
	for _, f := range fields {
		more, here := b.packField(f, origin, x.PerDay, &x.Scales)
		parts, any = append(parts, more...), any || here
	}
	if !any {
		return nil, false
	}
	regionOf := make([]uint32, 0, b.rows*b.cols)
	for row := range b.rows {
		from := row*x.Grid.Cols + b.cell.Col
		regionOf = append(regionOf, main[from:from+b.cols]...)
	}
	parts = append(parts, b.packRegions(regionOf)...)
	if x.Years.Stride > 0 {
		parts = append(parts, b.packYears(x.Years, fields[0].Typical)...)
	}
	return parts, true
}

func writeBlock(root *os.Root, row, col int, parts [][]byte) error {
	text, err := deflated(parts)
	if err != nil {
		return fmt.Errorf("lookup shards: %w", err)
	}
	script, err := call("weekbandShard", fmt.Sprintf("%d-%d", row, col), text)
	if err != nil {
		return fmt.Errorf("lookup shards: %w", err)
	}
	return writeFile(root, shardName(row, col), script)
}

func writeFile(root *os.Root, name string, text []byte) error {
	if err := root.WriteFile(name, text, 0o644); err != nil {
		return fmt.Errorf("%s: %w", path.Base(name), err)
	}
	return nil
}

// runsOf hands out the runs of covers from the north.
type runsOf struct {
	covers []zonal.Coverage
	next   []int // first run of each cover that is not used up
}

// upTo returns the runs before a row that were not returned yet.
func (r *runsOf) upTo(row int) (strips []zonal.Covered) {
	for i := range r.covers {
		runs, from := r.covers[i].Runs, r.next[i]
		for r.next[i] < len(runs) && int(runs[r.next[i]].Row) < row {
			r.next[i]++
		}
		if from < r.next[i] {
			strips = append(strips, zonal.Covered{Region: i, Runs: runs[from:r.next[i]]})
		}
	}
	return strips
}

// mainRegions returns 1 + the index of the region with the largest share of
// each cell of n rows, 0 for none; of equal shares the first region's counts.
func mainRegions(strips []zonal.Covered, first, n, cols int) []uint32 {
	out, share := make([]uint32, n*cols), make([]float64, n*cols)
	for _, s := range strips {
		for _, run := range s.Runs {
			row := (int(run.Row) - first) * cols
			for at := row + int(run.From); at < row+int(run.To); at++ {
				if run.Share > share[at] {
					out[at], share[at] = uint32(s.Region+1), run.Share
				}
			}
		}
	}
	return out
}

// has reports whether the index tells of a block.
func (x *Index) has(row, col int) bool {
	return row < len(x.Shards) && col < len(x.Shards[row]) && x.Shards[row][col] == '1'
}

// cellData is all that a shard tells of a cell.
type cellData struct {
	windows []value
	region  int        // 1 + its index in the list of regions, 0 for none
	months  *yearMeans // nil where no typical year is kept
}

// cellAt reads the shard of a point; ok is false off the grid and where there
// is none.
func (e *Edition) cellAt(p grid.LonLat) (c cellData, ok bool, err error) {
	cell, inside := e.grid.Locate(p)
	row, col := cell.Row/e.Side, cell.Col/e.Side
	if !inside || !e.has(row, col) {
		return c, false, nil
	}
	data, err := e.shard(row, col)
	if err != nil {
		return c, false, err
	}
	b := blockAt(e.Grid.Rows, e.Grid.Cols, row, col, e.Side)
	if c, err = e.unpack(b, data, (cell.Row-b.cell.Row)*b.cols+cell.Col-b.cell.Col); err != nil {
		return c, false, damaged(row, col, err)
	}
	return c, true, nil
}

// shard returns the data of a block.
func (e *Edition) shard(row, col int) ([]byte, error) {
	var key, text string
	if err := readCall(e.fsys, shardName(row, col), "weekbandShard", &key, &text); err != nil {
		return nil, err
	}
	data, err := inflated(text)
	if err == nil && key != fmt.Sprintf("%d-%d", row, col) {
		err = fmt.Errorf("it is the shard %q", key)
	}
	if err != nil {
		return nil, damaged(row, col, err)
	}
	return data, nil
}

// damaged says what is wrong with the shard of a block.
func damaged(row, col int, err error) error {
	return fmt.Errorf("%s: %w; build the edition again", shardName(row, col), err)
}

// unpack returns cell i of a block's data.
func (x *Index) unpack(b block, data []byte, i int) (c cellData, err error) {
	for w := range x.Windows {
		var v value
		if v, data, err = b.takeField(data, i, x.PerDay, &x.Scales, x.Windows[w].Cut); err != nil {
			return c, err
		}
		c.windows = append(c.windows, v)
	}
	regionOf, data, err := b.takeRegions(data)
	if err != nil {
		return c, err
	}
	c.region = int(regionOf[i])
	if x.Years.Stride > 0 {
		c.months, err = b.takeYear(data, x.Years, i)
	}
	return c, err
}
