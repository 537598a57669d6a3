package weeks

import (
	"context"
	"runtime"
	"sync"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/worth"
)

// Worth returns what an application on a day of the year would still stop,
// in percent of the season's germination, 0 to 100: worth.Season.At of every
// cell's typical year, with its spread and the error of its day. The season is
// the one whose crossing lies nearest to the day. A cell has a value where it
// has a crossing day and a typical year is kept that stands for it; that year
// is shifted, as a whole, so that it crosses on the cell's day. The error is
// that of ctx.
func (f *Field) Worth(ctx context.Context, on season.Day) (*grid.Raster[float32], error) {
	out := grid.NewRaster[float32](f.Grid())
	rows := make(chan int)
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			w := valuer{field: f}
			for row := range rows {
				w.row(row, on, out)
			}
		})
	}
	for row := range f.Grid().Rows() {
		if ctx.Err() != nil {
			break
		}
		rows <- row
	}
	close(rows)
	wg.Wait()
	return out, ctx.Err()
}

// valuer works out the worth of rows; workers do not share one.
type valuer struct {
	field  *Field
	year   curve.Year
	season worth.Season
}

func (w *valuer) row(row int, on season.Day, out *grid.Raster[float32]) {
	days, has := w.field.Day.Row(row)
	vals, set := out.Row(row)
	for col, ok := range has {
		if ok {
			vals[col], set[col] = w.at(grid.Cell{Row: row, Col: col}, season.Day(days[col]), on)
		}
	}
}

// at returns the worth of a moment at a cell that crosses on day.
func (w *valuer) at(cell grid.Cell, day, on season.Day) (percent float32, ok bool) {
	f := w.field
	if !f.Typical.Year(cell, &w.year) {
		return 0, false
	}
	trigger := f.Window.Trigger
	w.year.Shift(float64(trigger.Level) - w.year.At(day))
	sd, _ := f.Spread.At(cell)
	origin := crossing.Find(&w.year, trigger).Origin
	w.season.FillWith(&w.year, trigger, origin, f.Window.Treatment, spread.Together(float64(sd), f.ErrorAt(cell)))
	return float32(100 * w.season.At(origin.DaysTo(day)+day.Apart(on))), true
}
