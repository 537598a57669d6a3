package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"sync"

	"weekband/grid"
	"weekband/grid/source/geotiff"
)

// blockCells is about how many cells of all months are held at a time.
const blockCells = 512 << 10

// normalsBlock is a block of rows of the twelve months.
type normalsBlock struct {
	rows   int
	months [12][]float32 // °C
	dry    []bool
}

// writeNormals writes twelve files of monthly means, in tenths of a degree,
// rows by blocks: working them out is shared out by rows, packing by months.
func writeNormals(dir string, c continent, g grid.Grid) (err error) {
	dir = filepath.Join(dir, "normals")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	var out [12]*geotiff.Writer
	for m, name := range monthNames() {
		f, err2 := os.Create(filepath.Join(dir, fmt.Sprintf("tavg-%02d.tif", m+1)))
		if err2 != nil {
			return err2
		}
		defer func() { err = errors.Join(err, f.Close()) }()
		out[m], err = geotiff.NewWriter(f, g, 1, geotiff.WriteOptions{Store: geotiff.Int16, Scale: 0.1,
			Names: []string{name}, Unit: "degC", Description: expanseCredit})
		if err != nil {
			return err
		}
	}
	return newNormalsMaker(c, g).writeAll(out[:])
}

// writeAll works out all rows, appends them to the files of the months and
// completes these.
func (n *normalsMaker) writeAll(out []*geotiff.Writer) error {
	for first := 0; first < n.g.Rows(); first += n.block.rows {
		rows := min(n.block.rows, n.g.Rows()-first)
		n.fill(first, rows)
		if err := n.write(out, rows*n.g.Cols()); err != nil {
			return err
		}
	}
	for _, w := range out {
		if err := w.Close(); err != nil {
			return err
		}
	}
	return nil
}

type normalsMaker struct {
	g       grid.Grid
	workers []*rowMaker
	block   normalsBlock
}

// rowMaker is the room one goroutine needs.
type rowMaker struct {
	*surveyor
	stretch
	year
	seasons [12]monthly
}

func newNormalsMaker(c continent, g grid.Grid) *normalsMaker {
	n := &normalsMaker{g: g}
	n.block.rows = min(g.Rows(), max(1, blockCells/g.Cols()))
	cells := n.block.rows * g.Cols()
	n.block.dry = make([]bool, cells)
	for m := range n.block.months {
		n.block.months[m] = make([]float32, cells)
	}
	s := c.over(g)
	line := func() []float32 { return make([]float32, g.Cols()) }
	for range runtime.GOMAXPROCS(0) {
		n.workers = append(n.workers, &rowMaker{s.another(), stretch{km: line(), inland: line()}, year{line(), line(), line()}, theMonths()})
	}
	return n
}

// fill works out rows from first on.
func (n *normalsMaker) fill(first, rows int) {
	var wait sync.WaitGroup
	for k, w := range n.workers {
		wait.Go(func() {
			for row := k; row < rows; row += len(n.workers) {
				w.fill(first, row, &n.block)
			}
		})
	}
	wait.Wait()
}

func (w *rowMaker) fill(first, row int, b *normalsBlock) {
	from, to := row*w.g.Cols(), (row+1)*w.g.Cols()
	w.dry = b.dry[from:to]
	w.stretch.read(w.row(first + row))
	twice := w.year.read(w.stretch, w.g.Center(grid.Cell{Row: first + row}).Lat)
	for m, s := range w.seasons {
		w.month(s, twice, b.months[m][from:to])
	}
}

// write appends the first cells of the block to the files.
func (n *normalsMaker) write(out []*geotiff.Writer, cells int) error {
	errs := make([]error, len(out))
	var wait sync.WaitGroup
	for k := range n.workers {
		wait.Go(func() {
			for m := k; m < len(out); m += len(n.workers) {
				errs[m] = out[m].WriteRows(0, n.block.months[m][:cells], n.block.dry[:cells])
			}
		})
	}
	wait.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
