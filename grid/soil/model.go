package soil

import (
	"math"

	"weekband/grid/curve"
	"weekband/grid/season"
)

// Defaults of the model, from 115 reference stations of the contiguous
// United States with paired air and soil series: lags of 4 to 7 days are
// alike, and the offset without calibration is 1.6 °C.
const (
	DefaultLag    = 5.0  // days
	DefaultFrozen = 0.3  // share of the air below 0 °C that soil feels: snow and freezing insulate
	DefaultOffset = 1.6  // °C
	OffsetDepth   = 0.10 // m, the depth the offset holds for
)

// Offset is what soil is warmer than lagged air over the year:
//
//	offset(x) = Mean + Cos1·cos x + Sin1·sin x + Cos2·cos 2x + Sin2·sin 2x
//
// with x = 2πt/365 and t in days from 1 January 0:00, all in kelvins.
type Offset struct{ Mean, Cos1, Sin1, Cos2, Sin2 float64 }

// Model takes air to soil:
//
//	soil(t) = L(air*)(t) + offset(t)
//
// air* is air with its part below 0 °C multiplied by Frozen, and L is the
// first-order lag y' = (x − y)/Lag. The zero value gives air unchanged but
// for 0 °C as its floor; use Default.
type Model struct {
	Lag    float64 // days, at least 0; 0 is no lag
	Frozen float64 // 0 to 1
	Offset Offset
}

// Default is the model without calibration stations.
var Default = Model{Lag: DefaultLag, Frozen: DefaultFrozen, Offset: Offset{Mean: DefaultOffset}}

// Air takes soil to be as warm as air, at the same moment.
var Air = Model{Frozen: 1}

// Apply writes the soil year for an air year into soil, both in °C. The two
// may be the same array.
func (m Model) Apply(air, soil *curve.Year) {
	for i, t := range air {
		soil[i] = t
		if t < 0 {
			soil[i] = t * m.Frozen
		}
	}
	if m.Lag > 0 {
		lag(soil, m.Lag)
	}
	for i := range soil {
		soil[i] += m.Offset.On(i)
	}
}

// lag applies y' = (x − y)/τ in place, periodic. The step is exact for an
// input that is straight between two samples.
func lag(year *curve.Year, tau float64) {
	decay := math.Exp(-1 / tau)
	const n = season.YearDays
	// The state at the start of the year is what a long run-up leaves: after
	// 21 lags 1e-9 of any error remains.
	runUp := min(n, int(21*tau)+1)
	y := year[n-runUp]
	for i := n - runUp; i < n; i++ {
		y = lagStep(y, year[i], year[(i+1)%n], tau, decay)
	}
	first := year[0]
	for i := range n {
		next := first
		if i+1 < n {
			next = year[i+1]
		}
		here := year[i]
		year[i] = y
		y = lagStep(y, here, next, tau, decay)
	}
}

func lagStep(y, x0, x1, tau, decay float64) float64 {
	behind := float64(tau * (x1 - x0)) // how far a steady rise leaves the output behind
	return x1 - behind + float64((y-x0+behind)*decay)
}
