package weeks

import (
	"testing"

	"weekband/grid"
)

// Every block of cells belongs to the rows that hold its middle one.
func TestBlocksWithinRows(t *testing.T) {
	for stride := 1; stride <= 7; stride++ {
		for rows := 1; rows <= 25; rows++ {
			g, err := grid.New(grid.Box{West: -3, East: 2, South: 50, North: 60}, (rows+stride-1)/stride, 2)
			if err != nil {
				t.Fatal(err)
			}
			y := &Years{Stride: stride, Blocks: grid.NewRaster[Months](g)}
			for from := range rows {
				for to := from + 1; to <= rows; to++ {
					got := y.within(Span{From: from, To: to})
					for block := range g.Rows() {
						middle := block*stride + stride/2
						if want := middle >= from && middle < to; want != got.holds(block) {
							t.Fatalf("stride %d, %d rows: block %d in rows %d:%d is %v, want %v", stride, rows, block, from, to, !want, want)
						}
					}
				}
			}
		}
	}
}
