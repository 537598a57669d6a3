package main

import (
	"math"
	"time"
)

// The seasons of a continent, with the habits of real ones: warm at the
// equator and cold at the poles, hard winters inland and mild ones by the
// sea, which is late in both seasons, and cooler upward.
const (
	warmest      = 28.0 // °C, annual mean at sea level on the equator
	poleward     = 49.0 // K colder at the poles
	polewardPow  = 2.3  // of the sine of latitude
	polarSwing   = 28.0 // K, half the annual range at the poles, halfway inland
	swingPow     = 1.4
	coastalPart  = 0.45 // of that by the sea
	inlandPart   = 0.75 // and so much more of it far inland
	lapse        = 5.5  // K per km of height
	twiceAYear   = 0.8  // K, at the equator, where the sun passes twice
	lateInland   = 17.0 // day of the year of the coldest day, in the north
	lateSeaboard = 40.0
)

// stretch holds heights and nearness to the heart of the land of one row.
type stretch struct {
	dry    []bool
	km     []float32 // above the sea
	inland []float32 // 0 at the coast to 1
}

// read fills g from the relief of a row.
func (g stretch) read(s strip) {
	for i, base := range s.base {
		g.dry[i] = base > 0
		if !g.dry[i] {
			continue
		}
		heart := min(max(s.heart[i]*2+0.25, 0), 1)
		peak := max(0, 0.5+s.ridge[i])
		g.km[i] = float32(base * (0.5 + float32(6*float32(peak*heart))))
		g.inland[i] = heart
	}
}

// monthly is what the months of a year have in common with every place:
// cosine and sine of the middle of the month, and the cosine of twice that.
type monthly struct{ cos, sin, twice float32 }

func theMonths() [12]monthly {
	var all [12]monthly
	for m := range all {
		middle := time.Date(2001, time.Month(m+1), 1, 0, 0, 0, 0, time.UTC).YearDay() + 14
		x := 2 * math.Pi * float64(middle) / 365
		all[m] = monthly{float32(math.Cos(x)), float32(math.Sin(x)), float32(math.Cos(2 * x))}
	}
	return all
}

// year holds what the temperatures of a row are made of.
type year struct{ mean, cos, sin []float32 }

// read works out the parts of a row at a latitude.
func (y year) read(g stretch, lat float64) (twice float32) {
	up := math.Abs(math.Sin(lat * math.Pi / 180))
	mean := float32(warmest - poleward*math.Pow(up, polewardPow))
	swing := float32(polarSwing * math.Pow(up, swingPow))
	if lat < 0 {
		swing = -swing
	}
	early, late := 2*math.Pi*lateInland/365, 2*math.Pi*lateSeaboard/365
	c0, c1 := float32(math.Cos(late)), float32(math.Cos(early)-math.Cos(late))
	s0, s1 := float32(math.Sin(late)), float32(math.Sin(early)-math.Sin(late))
	for i, in := range g.inland {
		a := swing * (coastalPart + float32(inlandPart*in))
		y.mean[i] = mean - float32(lapse*g.km[i])
		y.cos[i] = a * (c0 + float32(c1*in))
		y.sin[i] = a * (s0 + float32(s1*in))
	}
	return float32(twiceAYear * (1 - up) * (1 - up))
}

// month fills a row with the mean temperatures of a month, °C.
func (y year) month(s monthly, twice float32, out []float32) {
	second := float32(twice * s.twice)
	for i, mean := range y.mean {
		out[i] = mean + second - float32(y.cos[i]*s.cos) - float32(y.sin[i]*s.sin)
	}
}
