package main

import (
	"math"
	"math/rand/v2"

	"weekband/grid/calibration"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/units"
)

// Soil is the model of package soil with an offset that varies over the land,
// and so with a truth that thermometers can be held against. Dry ground is
// warmer in summer, open ground in spring, and mild winters warm the whole
// year; the sizes are those of the reference stations in the table us of
// package calibration, whose five terms vary by 0.8, 1.4, 0.4, 0.3 and 0.3 K.
const (
	dryWide  = 6.0 // plan degrees over which ground changes from dry to moist
	openWide = 4.8 // and from open to sheltered
)

// trueOffset returns the offset at p without the chance of a single site.
func trueOffset(p plan, coldest units.Celsius) soil.Offset {
	dry := 2 * soilSeed.rough(p, dryWide, 2)
	open := 2 * (soilSeed+29).rough(p, openWide, 2)
	mild := max(float64(coldest), 0) / 10
	return soil.Offset{
		Mean: 1.25 + 0.6*mild + 1.9*dry + 0.8*open,
		Cos1: -0.6*mild - 1.0*dry,
		Sin1: 0.1 + 0.7*open,
		Cos2: 0.15 - 0.1*mild + 0.4*open,
		Sin2: -0.15 + 0.4*dry,
	}
}

// siteChance is the standard deviation of the five terms between sites side by
// side, in K. With the quirk it comes to 0.7 K in spring; it is 0.6 K between
// the reference stations.
var siteChance = soil.Offset{Mean: 0.55, Cos1: 0.6, Sin1: 0.35, Cos2: 0.2, Sin2: 0.2}

// quirkSize is the standard deviation of what no five terms say of a site.
const quirkSize = 0.2 // K, of each of the two terms of the third harmonic

// ground is the soil of one site.
type ground struct {
	offset     soil.Offset
	cos3, sin3 float64 // K, a third harmonic
}

// groundAt draws the ground of a site, whose chance is so many times that of a
// station.
func groundAt(p plan, coldest units.Celsius, times float64, chance *rand.Rand) ground {
	o := trueOffset(p, coldest)
	draw := func(term *float64, sd float64) { *term += times * sd * chance.NormFloat64() }
	draw(&o.Mean, siteChance.Mean)
	draw(&o.Cos1, siteChance.Cos1)
	draw(&o.Sin1, siteChance.Sin1)
	draw(&o.Cos2, siteChance.Cos2)
	draw(&o.Sin2, siteChance.Sin2)
	g := ground{offset: o}
	draw(&g.cos3, quirkSize)
	draw(&g.sin3, quirkSize)
	return g
}

// typical returns the typical year of soil at a depth.
func (g ground) typical(air *curve.Year, depth units.Metres) curve.Year {
	var year curve.Year
	model := soil.Default
	model.Offset = g.offset
	model.Apply(air, &year)
	for i := range year {
		x := 2 * math.Pi * 3 * float64(i) / season.YearDays
		year[i] += g.cos3*math.Cos(x) + g.sin3*math.Sin(x)
	}
	to := soil.NewConduction(soil.OffsetDepth, depth, soil.DefaultDiffusivity)
	to.Apply(&year)
	return year
}

// How soil follows the weather: faster than the wave of the year, but by less.
// The numbers are ours; TestWeatherIsAsLively holds what comes of them.
const (
	shallowLag   = 1.5  // days at 5 cm
	deepLag      = 2.0  // days at 10 cm
	shallowSwing = 0.58 // of a day's anomaly at 5 cm; a season's goes all the way
	deepSwing    = 0.53 // at 10 cm
	moistSD      = 0.7  // K, of wet and dry spells
	moistDays    = 20.0 // in which they fade to 1/e
	shallowSD    = 0.3  // K, of 5 cm alone
	sensorSD     = 0.1  // K
	frozenSwing  = 0.6  // of soil below 0 °C: freezing gives off heat
	frozenAir    = -3.0 // °C, below which snow lies
	unfrozenAir  = 4.0  // °C, above which it does not
	shallowDepth = units.Metres(0.05)
	deepDepth    = units.Metres(0.10)
)

// days is what sensors at a site show, an element a date of the weather, °C.
type days struct{ air, shallow, deep []float64 }

// measure lets the weather pass over a site.
func (w *weather) measure(s site, g ground, chance *rand.Rand) days {
	usual := s.year()
	at5, at10 := g.typical(&usual, shallowDepth), g.typical(&usual, deepDepth)
	over := w.over(s, chance)
	moist := drifting(chance, len(over), math.Exp(-1/moistDays))
	top := drifting(chance, len(over), dayAlike)
	var d days
	var felt5, felt10 float64
	for i, date := range w.dates {
		noon := date.Noon()
		air := usual.At(noon)
		d.air = append(d.air, air+over[i].day+over[i].season)
		felt := mix(soil.DefaultFrozen, 1, step(air, frozenAir, unfrozenAir))
		felt5 += (felt*(shallowSwing*over[i].day+over[i].season) - felt5) * (1 - math.Exp(-1/shallowLag))
		felt10 += (felt*(deepSwing*over[i].day+over[i].season) - felt10) * (1 - math.Exp(-1/deepLag))
		wet := moistSD * moist[i]
		d.shallow = append(d.shallow, freeze(at5.At(noon)+felt5+wet+shallowSD*top[i]+sensorSD*chance.NormFloat64()))
		d.deep = append(d.deep, freeze(at10.At(noon)+felt10+wet+sensorSD*chance.NormFloat64()))
	}
	return d
}

func freeze(t float64) float64 {
	if t < 0 {
		return frozenSwing * t
	}
	return t
}

// year returns the typical year of the site's air.
func (s site) year() curve.Year {
	var months [12]units.Celsius
	for m, t := range s.months() {
		months[m] = units.Celsius(t)
	}
	var year curve.Year
	c := curve.FromMonths(&months)
	c.Sample(&year)
	return year
}

func (s site) coldest() units.Celsius {
	year := s.year()
	return calibration.ColdestOf(&year)
}
