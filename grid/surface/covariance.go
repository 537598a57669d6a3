package surface

import (
	"fmt"
	"math"
)

// Shape is the form of a Covariance.
type Shape uint8

const (
	// Exponential falls as exp(−h/range): to 5 % at three ranges.
	Exponential Shape = iota
	// Spherical falls as 1 − 1.5 h/range + 0.5 (h/range)³ and is 0 from the
	// range on.
	Spherical
)

// String returns the name of the shape.
func (s Shape) String() string {
	if s == Spherical {
		return "spherical"
	}
	return "exponential"
}

// Covariance tells how alike the departures from the drift are at two places
// h km apart. Heights count too: a metre of height difference stands for
// KmPerMetre km, at right angles to the distance on the ground, because air
// lies in layers and a valley is more like the next valley than like its own
// slopes.
type Covariance struct {
	Shape      Shape
	Nugget     float64 // K²: site and instrument, not shared with any neighbour
	Sill       float64 // K²: shared part at distance 0
	RangeKm    float64
	KmPerMetre float64
}

// String describes the covariance for reports.
func (c Covariance) String() string {
	return fmt.Sprintf("%v, nugget %.3g K², sill %.3g K², range %.3g km, 100 m of height like %.3g km",
		c.Shape, c.Nugget, c.Sill, c.RangeKm, 100*c.KmPerMetre)
}

// Of returns the covariance in K² of the shared part at a distance of h km.
// It does not hold the nugget.
func (c Covariance) Of(h float64) float64 { return float64(c.Sill * c.correlation(h)) }

// Gamma returns the semivariance in K² at a distance of h km: 0 at 0, nugget
// and rising sill beyond.
func (c Covariance) Gamma(h float64) float64 {
	if h == 0 {
		return 0
	}
	return c.Nugget + c.Sill - c.Of(h)
}

func (c *Covariance) correlation(h float64) float64 {
	x := h / c.RangeKm
	if c.Shape == Exponential {
		return math.Exp(-x)
	}
	if x >= 1 {
		return 0
	}
	return 1 - float64(1.5*x) + float64(0.5*x*x*x)
}

// noise is the nugget as a share of the sill.
func (c *Covariance) noise() float64 { return c.Nugget / c.Sill }
