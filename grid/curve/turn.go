package curve

import (
	"math"

	"weekband/grid/season"
)

// turn holds cos kx, sin kx for k = 1..6 at one moment.
type turn [2 * Order]float64

// turnOf returns the turn at part/parts of the year.
func turnOf(part, parts int) (t turn) {
	for k := range Order {
		t[2*k+1], t[2*k] = math.Sincos(2 * math.Pi * float64((k+1)*part%parts) / float64(parts))
	}
	return t
}

// days holds the turns at 0:00 of every day of the year, noons those half a day
// later.
var days, noons = func() (starts, middles [season.YearDays]turn) {
	for i := range starts {
		starts[i], middles[i] = turnOf(i, season.YearDays), turnOf(2*i+1, 2*season.YearDays)
	}
	return starts, middles
}()

// sketchTurns and fineTurns are those of the moments from 1 January to the end
// of a quarter of the year, with both.
var (
	sketchTurns = [len(Sketch{})/4 + 1]turn(quarter(len(Sketch{})))
	fineTurns   = [len(Fine{})/4 + 1]turn(quarter(len(Fine{})))
)

func quarter(moments int) []turn {
	t := make([]turn, moments/4+1)
	for j := range t {
		t[j] = turnOf(j, moments)
	}
	return t
}
