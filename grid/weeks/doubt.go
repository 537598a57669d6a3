package weeks

import (
	"weekband/grid/calibration"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/units"
)

// doubt is how far the crossings of one cell may move: a status.Doubt.
type doubt struct {
	sd, se       curve.Curve // of the normals: year-to-year deviation and standard error, K
	hasSD, hasSE bool
	offsets      *calibration.Layer // nil without
	trust        calibration.Trust
}

// Spread follows from the year-to-year standard deviation of the monthly means
// where the input gives it.
func (d *doubt) Spread(slope float64, at season.Day) float64 {
	if !d.hasSD {
		return spread.Default
	}
	sd := max(d.sd.About(float64(at.In()-1)), 0) // a smooth curve through small values may dip below
	return spread.FromSlope(units.Delta(sd), slope)
}

// longestError bounds the standard error of a day, as spread.Longest bounds
// the spread.
const longestError = spread.Longest

// Error follows from the standard errors of normals and offset.
func (d *doubt) Error(slope float64, at season.Day) float64 {
	k := 0.0
	if d.hasSE {
		k = max(d.se.About(float64(at.In()-1)), 0)
	}
	if d.offsets != nil {
		k = spread.Together(k, float64(d.offsets.StdErr(d.trust, at)))
	}
	if k >= longestError*slope {
		return longestError
	}
	return k / slope
}
