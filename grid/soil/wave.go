package soil

import (
	"math"

	"weekband/grid/curve"
	"weekband/grid/season"
)

// perDay is the angle in radians that a day is of the year.
const perDay = 2 * math.Pi / season.YearDays

// wave holds cos x, sin x, cos 2x and sin 2x at one moment: the waves of an
// Offset.
type wave [4]float64

// wavesOf returns the waves at moments that divide the year evenly, the first
// 1 January 0:00.
func wavesOf(moments int) []wave {
	w := make([]wave, moments)
	for i := range w {
		w[i][1], w[i][0] = math.Sincos(2 * math.Pi * float64(i) / float64(moments))
		w[i][3], w[i][2] = math.Sincos(2 * math.Pi * float64(2*i%moments) / float64(moments))
	}
	return w
}

// The waves at 0:00 of every day, and at the moments of a Sketch and of a Fine.
var (
	dayWaves    = [season.YearDays]wave(wavesOf(season.YearDays))
	sketchWaves = wavesOf(len(curve.Sketch{}))
	fineWaves   = wavesOf(len(curve.Fine{}))
)

// at returns the offset at a moment.
func (o *Offset) at(w *wave) float64 {
	return o.Mean + float64(o.Cos1*w[0]) + float64(o.Sin1*w[1]) + float64(o.Cos2*w[2]) + float64(o.Sin2*w[3])
}

// On returns the offset in K at 0:00 of a day of the year, 0 for 1 January to
// 364.
func (o *Offset) On(day int) float64 { return o.at(&dayWaves[day]) }
