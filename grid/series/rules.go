package series

import "weekband/grid/units"

// Rules are the bounds of the check of series. The zero value means the
// defaults; each stands well clear of the 77 reference stations.
type Rules struct {
	// MinYears is how many years a typical year needs; default 5. Every
	// calendar month must be complete in four fifths of them, as a normal of
	// 30 years needs 24 (WMO-No. 1203). An offset fitted to 5 years instead of
	// 9 to 14 moves the 55 °F crossing by 1.0 day on average, to 3 years by
	// 1.6, to 2 by 2.0, while the offsets of two sites differ by 4 to 5 days.
	MinYears int
	// StuckDays is how many equal daily values in a row are a stuck sensor of
	// air or of soil down to 15 cm; default 10. The longest run of the
	// reference stations away from 0 °C lasts 7 days. Below, where a summer
	// comes and goes by a tenth of a degree in two weeks, it takes three times
	// as many.
	StuckDays int
	// Spike is how far a single day may stand out from both neighbours, more
	// than air does; default 5 K. Three of 154 reference sensors exceed it,
	// each on one day.
	Spike units.Delta
	// Step is the lasting change of soil less lagged air, between the years
	// before and after, from which it is noted; default 1 K. It must also be
	// five standard errors large. Trees, grass and drought drift by about half
	// a kelvin. 2 K added to the later half of each reference station is found
	// at 72 of 77, 3 K at 76; two have a step at 10 cm as they are. From 4 K on
	// there is no typical year.
	Step units.Delta
}

// orDefault fills in what is zero.
func (r Rules) orDefault() Rules {
	if r.MinYears == 0 {
		r.MinYears = 5
	}
	if r.StuckDays == 0 {
		r.StuckDays = 10
	}
	if r.Spike == 0 {
		r.Spike = 5
	}
	if r.Step == 0 {
		r.Step = 1
	}
	return r
}

// monthsNeeded returns in how many years each calendar month must be
// complete.
func (r Rules) monthsNeeded() int { return max(1, (4*r.MinYears+4)/5) }

// Other bounds.
const (
	// shallow is the depth in m down to which weather moves soil every day.
	shallow = 0.15
	// frost is how far from 0 °C thawing and freezing, and snow over the
	// ground, hold soil still; the reference stations have runs of 22 equal
	// days at 1 and 2 °C under snow, and none outside.
	frost = 4.0
	// plateauDays is the shortest run of equal values near 0 °C that is
	// counted as a plateau.
	plateauDays = 5
	// maxSoil and minSoil bound daily means of soil, maxAir those of air. The
	// reference stations reach 51 °C and −19 °C in soil and 47 °C in air, in
	// Death Valley and on the northern plains.
	minSoil, maxSoil = -50, 65
	maxAir           = 55
	// hottestMean bounds the mean of a whole series; above it the numbers are
	// degrees Fahrenheit. Death Valley has 26 °C in air and 30 °C in soil.
	hottestMean = 38
	// warmerSoil bounds the mean of soil less air, K; snow and sun make it 6 K
	// at most.
	warmerSoil = 15
	// livelier bounds day-to-day changes of soil against those of air (at most
	// 0.74 at the reference stations, at 5 cm in the desert) and of a deeper
	// sensor against a shallower one.
	livelier = 1.05
	// sameShare is the share of equal values at which two columns are one
	// (air and soil of the reference stations: at most 0.02).
	sameShare = 0.5
	// grossStep is the lasting change from which there is no typical year.
	grossStep units.Delta = 4
	// stepErrors is how many standard errors a step must be large; stepMonths
	// how many months there must be before and after it.
	stepErrors = 5
	stepMonths = 24
)
