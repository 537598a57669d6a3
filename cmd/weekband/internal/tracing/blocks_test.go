package tracing

import (
	"math"
	"testing"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/weeks"
	"weekband/regions/bands"
)

// patchwork is a field of 5 × 7 cells: days rise to the south-east, the corner
// in the north-west never crosses, the eastern column is water.
func patchwork(t *testing.T) *weeks.Field {
	t.Helper()
	g, err := grid.New(grid.Box{West: -8, South: 50, East: -1, North: 55}, 5, 7)
	if err != nil {
		t.Fatal(err)
	}
	f := &weeks.Field{Cut: 1, Reason: grid.NewRaster[crossing.Reason](g), Common: &weeks.Common{Coldest: grid.NewRaster[float32](g), Warmest: grid.NewRaster[float32](g)}}
	for _, r := range []**grid.Raster[float32]{&f.Day, &f.Spread, &f.OntimeFrom, &f.CatchupTo, &f.Slope, &f.Error} {
		*r = grid.NewRaster[float32](g)
	}
	f.Window.Trigger.Level = 12
	for row := range 5 {
		for col := range 6 {
			c := grid.Cell{Row: row, Col: col}
			f.Coldest.Set(c, float32(row))
			f.Warmest.Set(c, float32(10+2*col+row))
			if row < 2 && col < 2 {
				f.Reason.Set(c, crossing.Never)
				continue
			}
			day := float32(90 + 3*row + col)
			f.Reason.Set(c, crossing.Dated)
			for r, v := range map[*grid.Raster[float32]]float32{f.Day: day, f.OntimeFrom: day - 12, f.CatchupTo: day + 30, f.Spread: 11, f.Slope: 0.2, f.Error: float32(2 + row)} {
				r.Set(c, v)
			}
		}
	}
	return f
}

// meansOf is pooling the slow way.
func meansOf(r *grid.Raster[float32], n int) *grid.Raster[float32] {
	onto, _ := r.Grid().Pooled(n)
	out := grid.NewRaster[float32](onto)
	for row := range onto.Rows() {
		for col := range onto.Cols() {
			sum, count := 0.0, 0
			for cell, v := range r.All() {
				if cell.Row/n == row && cell.Col/n == col {
					sum += float64(v)
					count++
				}
			}
			if count > 0 {
				out.Set(grid.Cell{Row: row, Col: col}, float32(sum/float64(count)))
			}
		}
	}
	return out
}

// What pictures of blocks of cells show is the mean of what they show of the
// cells.
func TestBlocksShowMeans(t *testing.T) {
	f := patchwork(t)
	for n := 1; n <= 3; n++ {
		wantEarly, wantLate := f.EarlyLate()
		early, late := earlyLate(f, n)
		own, _ := Staged(f, n)
		for what, pair := range map[string][2]*grid.Raster[float32]{
			"day": {Pooled(f.Day, n), f.Day}, "early": {early, wantEarly}, "late": {late, wantLate}, "error": {ExpectedErrors(f, n), f.ExpectedErrors()},
			"never": {Margin(f, crossing.Never, n), f.Margin(crossing.Never)}, "flat": {Margin(f, crossing.Flat, n), f.Margin(crossing.Flat)},
			"on time": {own.OntimeFrom, f.OntimeFrom}, "catching up": {own.CatchupTo, f.CatchupTo},
		} {
			got, want := pair[0], meansOf(pair[1], n)
			if got.Count() != want.Count() || got.Grid() != want.Grid() {
				t.Fatalf("%s of blocks of %d: %d values on %v, want %d on %v", what, n, got.Count(), got.Grid(), want.Count(), want.Grid())
			}
			for cell, v := range want.All() {
				if had, _ := got.At(cell); math.Abs(float64(had-v)) > 1e-4 {
					t.Errorf("%s of the block %v of %d: %v, want %v", what, cell, n, had, v)
				}
			}
		}
	}
}

// Blocks are what most of their cells are: by hand for blocks of two.
func TestBlocksAreClassed(t *testing.T) {
	f := classed(patchwork(t), 2)
	for row, line := range []string{"n..w", "...w", "...w"} {
		for col, want := range line {
			c := grid.Cell{Row: row, Col: col}
			_, dated := f.Day.At(c)
			class, there := f.Class.At(c)
			got := map[bool]rune{true: '.', false: 'w'}[dated]
			if there && class == uint8(crossing.Never) {
				got = 'n'
			}
			if got != want {
				t.Errorf("block %v is %c, want %c", c, got, want)
			}
		}
	}
	if _, err := bands.Trace(f, []float64{95}, bands.Options{}); err != nil {
		t.Error(err)
	}
}

// Ground keeps its area, however coarse the blocks.
func TestBlocksKeepAreas(t *testing.T) {
	f := patchwork(t)
	d := Window{Field: f, Areas: f.AreaOf()}
	for n := 1; n <= 4; n++ {
		r := Pooled(f.Day, n)
		sum := 0.0
		for _, km2 := range r.Areas() {
			sum += km2
		}
		if got, want := sum*Fair(r, d), d.Areas[crossing.Dated]; math.Abs(got-want) > 1e-9*want {
			t.Errorf("blocks of %d: %v km² of dated ground, want %v", n, got, want)
		}
	}
}

// A picture has a cell for every pixel, and an inset has its own say.
func TestDetail(t *testing.T) {
	g, err := grid.New(grid.Box{West: -125, South: 24, East: -66.5, North: 49.875}, 3105, 7020)
	if err != nil {
		t.Fatal(err)
	}
	for pixels, want := range map[float64]int{2400: 2, 900: 7, 7020: 1, 9000: 0} {
		if got := int(cellsPerPixel(g, g.Box(), pixels)); got != want {
			t.Errorf("%v pixels: %d cells each, want %d", pixels, got, want)
		}
	}
	coarse, fine := Detail{small: false}, Detail{small: true}
	if a, b := coarse.Lines(), fine.Lines(); a.Simplify != 0 || !(b.Simplify > 0.1) {
		t.Errorf("lines of coarse cells %+v, of fine ones %+v", a, b)
	}
}
