package soil

import (
	"math"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
)

// Sketch writes the year at the moments of a curve.Sketch.
func (c *Course) Sketch(s *curve.Sketch) {
	c.Bare.Sketch(s)
	c.keep(s[:], sketchHarmonics)
}

// Fine writes the year at the moments of a curve.Fine.
func (c *Course) Fine(f *curve.Fine) {
	c.Bare.Fine(f)
	c.keep(f[:], fineHarmonics)
}

// MonthMeans returns the average over each month, January first, of the course
// of which Fine is known, to some thousandths of a kelvin.
func (c *Course) MonthMeans(f *curve.Fine) [12]units.Celsius {
	means := c.Bare.MonthMeans()
	if !c.freezes() {
		return means
	}
	var kept curve.Fine
	c.Bare.Fine(&kept)
	for j := range kept {
		kept[j] = f[j] - kept[j]
	}
	for m, mean := range kept.MonthMeans() {
		means[m] += mean
	}
	return means
}

// keep adds D to a year at even moments.
func (c *Course) keep(year []float64, harmonics [][4]float64) {
	if c.always {
		for j := range year {
			year[j] -= float64(c.of.shelter * (year[j] - c.offset.on(&harmonics[j])))
		}
		return
	}
	step := season.YearDays / float64(len(year))
	wane := c.of.fade(step)
	for i := range c.count {
		f := &c.frosts[i]
		j := int(math.Ceil(f.from / step))
		at := float64(float64(j)*step) - f.from
		if j == len(year) {
			j = 0
		}
		rest := float64(f.start * c.of.fade(at))
		for ; at < f.length; at += step {
			year[j] -= float64(c.of.shelter * (year[j] - c.offset.on(&harmonics[j]) + rest))
			rest = float64(rest * wane)
			if j++; j == len(year) {
				j = 0
			}
		}
		rest = float64(f.thaw * c.of.fade(at-f.length))
		for ; at < f.until && rest > negligible; at += step {
			year[j] += rest
			rest = float64(rest * wane)
			if j++; j == len(year) {
				j = 0
			}
		}
	}
}

// negligible is what may be missing of soil in K.
const negligible = 1e-7

// sketchHarmonics and fineHarmonics hold cos x, sin x, cos 2x and sin 2x at even
// moments.
var (
	sketchHarmonics = harmonicsOf(len(curve.Sketch{}))
	fineHarmonics   = harmonicsOf(len(curve.Fine{}))
)

func harmonicsOf(moments int) [][4]float64 {
	h := make([][4]float64, moments)
	for i := range h {
		h[i][1], h[i][0] = math.Sincos(2 * math.Pi * float64(i) / float64(moments))
		h[i][3], h[i][2] = math.Sincos(2 * math.Pi * float64(2*i%moments) / float64(moments))
	}
	return h
}

// perDay is the angle in radians that a day is of the year.
const perDay = 2 * math.Pi / season.YearDays

// fade returns what is left of D after some days without frost, as a share.
func (r *Response) fade(days float64) float64 {
	if r.tau == 0 {
		return 0
	}
	return fade(days / r.tau)
}

// fade returns e^(−x) for x at least 0, to 1e-10 of itself, and 0 from 20 on.
// math.Exp differs in the last bit from machine to machine.
func fade(x float64) float64 {
	i := int(x * fadeParts)
	if uint(i) >= uint(len(fadeTable)) {
		return 0
	}
	u := x - float64(float64(i)*(1.0/fadeParts))
	e := 1.0/24 - float64(u*(1.0/120)) // the first terms of the series of e^(−u)
	e = 1.0/6 - float64(u*e)
	e = 1.0/2 - float64(u*e)
	e = 1 - float64(u*e)
	return fadeTable[i] * (1 - float64(u*e))
}

const fadeParts = 16

var fadeTable = func() (t [20 * fadeParts]float64) {
	const part = 0.93941306281347578 // e^(−1/16)
	t[0] = 1
	for i := 1; i < len(t); i++ {
		t[i] = t[i-1] * part
	}
	return t
}()
