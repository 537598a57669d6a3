package lookup

import (
	"fmt"
	"os"
	"path"
	"strings"

	"weekband/grid"
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
	if err := root.MkdirAll(shardDir, 0o755); err != nil {
		return fmt.Errorf("lookup shards: %w", err)
	}
	x.Format, x.Side, x.Windows = format, blockCells, []Window{}
	for _, f := range d.Fields {
		w := windowOf(&f.Window)
		w.Cut = f.Cut
		x.Windows = append(x.Windows, w)
	}
	if len(d.Fields) > 0 {
		if err := writeBlocks(root, &x, &d); err != nil {
			return err
		}
	}
	if err := writeRegions(root, &x, d.Regions); err != nil {
		return err
	}
	if err := writePlaces(root, &x, d.Places); err != nil {
		return err
	}
	return writeIndex(root, &x)
}

// writeBlocks writes the blocks that hold any cell with normals.
func writeBlocks(root *os.Root, x *Index, d *Data) error {
	g := d.Fields[0].Grid()
	box := g.Box()
	x.Grid = Extent{West: box.West, South: box.South, East: box.East, North: box.North, Rows: g.Rows(), Cols: g.Cols()}
	p := precisionFor(g.Cells())
	x.PerDay, x.Scales = p.perDay, p.scales()
	if common := d.Fields[0].Common; common != nil && common.Typical != nil {
		x.Years = yearsFor(g.Rows(), g.Cols())
	}
	main := mainRegions{covers: d.Covers, next: make([]int, len(d.Covers))}
	for row := 0; row*blockCells < g.Rows(); row++ {
		band := main.rows(row*blockCells, min(blockCells, g.Rows()-row*blockCells), g.Cols())
		var there strings.Builder
		for col := 0; col*blockCells < g.Cols(); col++ {
			parts, any := x.pack(blockAt(g.Rows(), g.Cols(), row, col, blockCells), d, band)
			if !any {
				there.WriteByte('0')
				continue
			}
			there.WriteByte('1')
			if err := writeBlock(root, row, col, parts); err != nil {
				return err
			}
		}
		x.Shards = append(x.Shards, there.String())
	}
	return nil
}

// pack returns the parts of a block; any is false where no window tells anything.
// band holds the regions of the rows of cells that the block lies in.
func (x *Index) pack(b block, d *Data, band []uint32) (parts [][]byte, any bool) {
	for _, f := range d.Fields {
		more, here := b.packField(f, x.PerDay, &x.Scales)
		parts, any = append(parts, more...), any || here
	}
	if !any {
		return nil, false
	}
	regionOf := make([]uint32, 0, b.rows*b.cols)
	for row := range b.rows {
		from := row*x.Grid.Cols + b.cell.Col
		regionOf = append(regionOf, band[from:from+b.cols]...)
	}
	parts = append(parts, b.packRegions(regionOf)...)
	if x.Years.Stride > 0 {
		parts = append(parts, b.packYears(x.Years, d.Fields[0].Typical)...)
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

// mainRegions tells, from the north, which region covers most of each cell.
type mainRegions struct {
	covers []zonal.Coverage
	next   []int // first run of each cover that is not used up
}

// rows returns 1 + the index of the region with the largest share of each cell
// of n rows, 0 for none; of equal shares the first region's counts. Rows must
// be asked for from the north.
func (m *mainRegions) rows(first, n, cols int) []uint32 {
	out, share := make([]uint32, n*cols), make([]float64, n*cols)
	for i := range m.covers {
		runs := m.covers[i].Runs
		for ; m.next[i] < len(runs) && int(runs[m.next[i]].Row) < first+n; m.next[i]++ {
			run := runs[m.next[i]]
			row := (int(run.Row) - first) * cols
			for at := row + int(run.From); at < row+int(run.To); at++ {
				if run.Share > share[at] {
					out[at], share[at] = uint32(i+1), run.Share
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
	for range x.Windows {
		var v value
		if v, data, err = b.takeField(data, i, x.PerDay, &x.Scales); err != nil {
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
