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
	c.keep(s[:], sketchWaves)
}

// Fine writes the year at the moments of a curve.Fine.
func (c *Course) Fine(f *curve.Fine) {
	c.Bare.Fine(f)
	c.keep(f[:], fineWaves)
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
func (c *Course) keep(year []float64, waves []wave) {
	if c.always {
		for j := range year {
			year[j] -= float64(c.of.shelter * (year[j] - c.offset.at(&waves[j])))
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
			year[j] -= float64(c.of.shelter * (year[j] - c.offset.at(&waves[j]) + rest))
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
