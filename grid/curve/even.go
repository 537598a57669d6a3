package curve

import (
	"math"
	"time"

	"weekband/grid/season"
	"weekband/grid/units"
)

// Sketch is a typical year of temperatures in °C at 32 moments that divide it
// evenly: element j is the value at day 1 + j·SketchStep.
type Sketch [32]float64

// Fine is a Sketch at three times as many moments: its element 3j is element j
// of the Sketch.
type Fine [96]float64

// Distances between the moments, in days.
const (
	SketchStep = season.YearDays / float64(len(Sketch{}))
	FineStep   = season.YearDays / float64(len(Fine{}))
)

// Sketch writes the curve at the moments of a Sketch.
func (c *Curve) Sketch(s *Sketch) { c.evenly(sketchTurns[:], s[:]) }

// Fine writes the curve at the moments of a Fine.
func (c *Curve) Fine(f *Fine) { c.evenly(fineTurns[:], f[:]) }

// Range returns the lowest and the highest temperature of a Sketch.
func (s *Sketch) Range() (low, high float64) {
	l, h := s.ends()
	return s[l], s[h]
}

// ends returns the moments of the lowest and the highest temperature. Bits of
// numbers sort as integers once those below zero are turned over, so that there
// is no branch to guess wrong; the last ones carry the moment.
func (s *Sketch) ends() (lowest, highest int) {
	const mask = int64(len(s) - 1)
	l, h := int64(math.MaxInt64), int64(math.MinInt64)
	for j, v := range s {
		b := int64(math.Float64bits(v))
		b = (b^int64(uint64(b>>63)>>1))&^mask | int64(j)
		l, h = min(l, b), max(h, b)
	}
	return int(l & mask), int(h & mask)
}

// Lowest returns the lowest temperature of a curve with this Sketch, on a
// parabola through three moments: right to some hundredths of a kelvin.
func (s *Sketch) Lowest() float64 {
	j, _ := s.ends()
	before, here, after := s[(j+len(s)-1)%len(s)], s[j], s[(j+1)%len(s)]
	bend := before - float64(2*here) + after
	if bend <= 0 {
		return here
	}
	return here - float64((after-before)*(after-before))/(8*bend)
}

// MonthMeans returns the average over each month, January first, of a year
// that is straight between the moments.
func (f *Fine) MonthMeans() (means [12]units.Celsius) {
	var sums [len(f) + 1]float64 // from 1 January to each moment, in K·steps
	for j := range f {
		sums[j+1] = sums[j] + (f[j]+f[(j+1)%len(f)])/2
	}
	upTo := func(t float64) float64 {
		j := min(int(t), len(f)-1)
		u := t - float64(j)
		return sums[j] + float64(u*(f[j]+float64(u/2*(f[(j+1)%len(f)]-f[j]))))
	}
	before := 0.0
	for m := range means {
		days := float64(season.MonthDays(time.Month(m + 1)))
		end := upTo((float64(season.MonthBegin(time.Month(m+1))) - 1 + days) / FineStep)
		means[m] = units.Celsius((end - before) * FineStep / days)
		before = end
	}
	return means
}

// evenly writes the curve at moments that divide the year into len(out) parts,
// a multiple of four. The moments x, −x, π − x and π + x share four sums: those
// of even and odd cosines and sines.
func (c *Curve) evenly(turns []turn, out []float64) {
	half := len(out) / 2
	west := 0 // of −x, the same as x for the first
	for j := range turns {
		t := &turns[j]
		evenCos := c.Mean + float64(c.Cos[1]*t[2]) + float64(c.Cos[3]*t[6]) + float64(c.Cos[5]*t[10])
		oddCos := float64(c.Cos[0]*t[0]) + float64(c.Cos[2]*t[4]) + float64(c.Cos[4]*t[8])
		evenSin := float64(c.Sin[1]*t[3]) + float64(c.Sin[3]*t[7]) + float64(c.Sin[5]*t[11])
		oddSin := float64(c.Sin[0]*t[1]) + float64(c.Sin[2]*t[5]) + float64(c.Sin[4]*t[9])
		sum, apart := evenCos+oddCos, evenCos-oddCos
		rise, fall := evenSin+oddSin, oddSin-evenSin
		out[west] = sum - rise
		out[j], out[half+j], out[half-j] = sum+rise, apart-fall, apart+fall
		west = len(out) - 1 - j
	}
}

// Bend returns a bound of the curve's second derivative in K/d²: between
// moments h days apart it bulges by at most Bend·h²/8.
func (c *Curve) Bend() float64 {
	sum := 0.0
	for k := range Order {
		sum += float64(float64((k+1)*(k+1)) * (math.Abs(c.Cos[k]) + math.Abs(c.Sin[k])))
	}
	return sum * (angle(1) * angle(1))
}
