package spread

import (
	"math"

	"weekband/grid/units"
)

// Default is the standard deviation in days used where the input holds no
// year-to-year spread: at 62 to 70 stations of the U.S. Climate Reference
// Network (10 cm, 50 to 65 °F) the median over stations is 10.3 to 11.0.
const Default = 11.0

// Longest bounds what FromSlope returns, in days. Where the curve is so flat
// that more would come out, the day itself is ill-conditioned.
const Longest = 45.0

// decile is the 90 % point of the standard normal distribution.
const decile = 1.2815515655446004

// monthToWeek is how much larger the spread of a 7-day mean is than that of
// a monthly mean in its effect on the day: 1.09 to 1.15 at the reference
// stations.
const monthToWeek = 1.1

// FromSlope returns the standard deviation in days of a crossing where the
// monthly mean temperature has the standard deviation sd and the annual
// curve passes the threshold at slope K/d, which must be positive. The
// result is at most Longest.
func FromSlope(sd units.Delta, slope float64) float64 {
	return min(monthToWeek*float64(sd)/slope, Longest)
}

// Together returns the standard deviation of a spot's crossing about the map's
// typical day: from year to year, sd days, and because the typical day is only
// known to a standard error, stdErr days.
func Together(sd, stdErr float64) float64 {
	return math.Sqrt(float64(sd*sd) + float64(stdErr*stdErr))
}

// Expected returns the mean absolute error, in days, of a typical day whose
// standard error is stdErr: √(2/π) of it for normal errors.
func Expected(stdErr float64) float64 { return math.Sqrt(2/math.Pi) * stdErr }

// EarlyBy returns how many days before the typical day the early year's day
// lies, the 10 % quantile of a normal distribution with the standard
// deviation sd in days. The late year's, 90 %, lies as far after it.
func EarlyBy(sd float64) float64 { return float64(decile * sd) }
