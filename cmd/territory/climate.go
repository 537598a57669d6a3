package main

import (
	"math"

	"weekband/grid"
)

// The climate is invented, with the habits of real ones: warmer southward,
// cooler upward, mild winters by the sea and hard ones inland, and a sea
// that is late in both seasons.
const (
	southMean    = 21.3 // °C, annual mean at sea level on the southern edge
	northward    = 1.02 // K colder per degree of latitude
	seaSwing     = 5.6  // K, half the annual range on the southern coast
	northSwing   = 0.37 // K more per degree of latitude
	inlandSwing  = 5.2  // K more in the heart of the land
	lapseMean    = 5.5  // K per km
	lapseSeason  = 0.8  // K per km steeper in early summer, flatter in winter
	coldestLand  = 17.0 // day of the year of the coldest day far inland
	coldestSea   = 40.0 // and on a small island
	poolDepth    = 1.4  // K, how much colder a deep inland hollow is in midwinter
	thinAir      = 0.05 // per km, how much the seasons weaken upward
	weatherSwing = 0.35 // K, of local chance
)

// site is what the climate of a place depends on.
type site struct {
	at      grid.LonLat
	height  float64 // m
	inland  float64 // 0 on a lone rock in the sea, 1 far from all coasts
	hollow  float64 // 0 to 1, how far below its surroundings the ground lies
	chanceA float64 // −1 to 1, of the mean
	chanceB float64 // −1 to 1, of the swing
}

// climate reads sites off a finished land.
type climate struct {
	height, inland, around field
}

func climateOf(l *land) climate {
	dry := newField(l.height.g)
	ground := newField(l.height.g)
	for i, h := range l.height.v {
		if !l.isSea(i) {
			dry.v[i], ground.v[i] = 1, h
		}
	}
	return climate{height: ground, inland: dry.blur(26), around: ground.blur(6)}
}

// site returns what is known of p at a height in m. Winds come from the
// west, so the sea is felt further from a western coast.
func (c climate) site(p grid.LonLat, height float64) site {
	const windward = 0.35 // degrees
	upwind := grid.LonLat{Lon: p.Lon - windward, Lat: p.Lat}
	q := planOf(p)
	return site{
		at: p, height: height,
		inland:  step(c.inland.sample(upwind), 0.15, 1),
		hollow:  between((c.around.sample(p)-height)/250, 0, 1),
		chanceA: weatherSeed.rough(q, 1.1, 3),
		chanceB: (weatherSeed + 13).rough(q, 1.3, 3),
	}
}

// months returns the monthly means of air temperature in °C, January first:
// the exact averages of the site's annual wave and half-year wave.
func (s site) months() [12]float64 {
	lat := s.at.Lat - frame.South
	km := s.height / 1000
	mean := southMean - northward*lat - lapseMean*km + weatherSwing*s.chanceA
	swing := seaSwing + northSwing*lat + inlandSwing*s.inland*(0.42+0.075*lat) + weatherSwing*s.chanceB
	coldest := mix(coldestSea, coldestLand, math.Sqrt(s.inland))
	swing *= 1 - thinAir*km
	pool := poolDepth * s.hollow * s.inland

	var t [12]float64
	for m := range t {
		year := monthWave(m, 1, coldest)    // 1 around the coldest day
		early := monthWave(m, 1, 140+182.5) // −1 around 20 May, when the air is most unstable
		half := monthWave(m, 2, coldest+20)
		t[m] = mean - swing*year - 0.045*swing*half + lapseSeason*km*early - pool*max(year, 0)
	}
	return t
}

// monthWave returns the average over month m (0 = January) of a cosine with
// n waves a year and a crest on the given day.
func monthWave(m, n int, crest float64) float64 {
	days := [...]float64{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365}
	turn := 2 * math.Pi * float64(n) / 365
	from, to := turn*(days[m]-crest), turn*(days[m+1]-crest)
	return (math.Sin(to) - math.Sin(from)) / (to - from)
}
