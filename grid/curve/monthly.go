package curve

import (
	"math"
	"time"

	"weekband/grid/season"
	"weekband/grid/units"
)

// FromMonths returns the curve whose average over each month of the typical
// year equals the monthly mean, January first, to 1e-9 °C. It is the
// 12-term polynomial with 1, cos kx and sin kx for k = 1..5, and sin 6x:
// Epstein's method (J. Climate 4:365, 1991) made exact for months of unequal
// length. Its cos 6x is left out because the middles of the months lie near
// the zeros of that wave and would make the system nearly singular; with
// sin 6x the condition number is 1.94.
func FromMonths(means *[12]units.Celsius) Curve {
	var c Curve
	c.Fit(means)
	return c
}

// Fit makes c the curve of FromMonths.
func (c *Curve) Fit(means *[12]units.Celsius) {
	m0, m1, m2, m3, m4, m5 := float64(means[0]), float64(means[1]), float64(means[2]), float64(means[3]), float64(means[4]), float64(means[5])
	m6, m7, m8, m9, m10, m11 := float64(means[6]), float64(means[7]), float64(means[8]), float64(means[9]), float64(means[10]), float64(means[11])
	var term [12]float64
	for i := range fromMonths {
		w := &fromMonths[i] // four sums, which a processor works out side by side
		winter := float64(w[0]*m0) + float64(w[1]*m1) + float64(w[2]*m2)
		spring := float64(w[3]*m3) + float64(w[4]*m4) + float64(w[5]*m5)
		summer := float64(w[6]*m6) + float64(w[7]*m7) + float64(w[8]*m8)
		autumn := float64(w[9]*m9) + float64(w[10]*m10) + float64(w[11]*m11)
		term[i] = (winter + spring) + (summer + autumn)
	}
	c.Mean = term[0]
	c.Cos = [Order]float64{term[1], term[2], term[3], term[4], term[5], 0}
	c.Sin = [Order]float64(term[6:])
}

// monthAverages returns the averages of cos kx and sin kx over month m
// (0 = January).
func monthAverages(m, k int) (cos, sin float64) {
	month := time.Month(m + 1)
	from := angle(float64(season.MonthBegin(month)) - 1)
	width := angle(float64(season.MonthDays(month)))
	n := float64(k)
	s0, c0 := math.Sincos(n * from)
	s1, c1 := math.Sincos(n * (from + width))
	return (s1 - s0) / (n * width), (c0 - c1) / (n * width)
}

// MonthMeans returns the average of the curve over each month of the
// typical year, January first, from the integrals in closed form.
func (c *Curve) MonthMeans() (means [12]units.Celsius) {
	for m := range means {
		even, odd := c.waves(&months[m])
		means[m] = units.Celsius(even + odd)
	}
	return means
}

// months holds the averages of cos kx and sin kx over every month.
var months = func() (t [12]turn) {
	for m := range t {
		for k := range Order {
			t[m][2*k], t[m][2*k+1] = monthAverages(m, k+1)
		}
	}
	return t
}()

// fromMonths is the inverse of the 12 × 12 matrix that takes the terms 1,
// cos x … cos 5x, sin x … sin 6x to the monthly means: row i, column m is the
// share of month m's mean in term i.
var fromMonths = func() [12][12]float64 {
	var means [12][12]float64 // row: month, column: term
	for m := range 12 {
		means[m][0] = 1
		for k := 1; k <= Order; k++ {
			means[m][5+k] = months[m][2*k-1]
			if k < Order {
				means[m][k] = months[m][2*k-2]
			}
		}
	}
	return invert(means)
}()

// invert returns the inverse of a well-conditioned matrix by Gauss–Jordan
// elimination with row pivoting.
func invert(a [12][12]float64) [12][12]float64 {
	var inv [12][12]float64
	for i := range inv {
		inv[i][i] = 1
	}
	for col := range a {
		pivot := col
		for row := col; row < len(a); row++ {
			if math.Abs(a[row][col]) > math.Abs(a[pivot][col]) {
				pivot = row
			}
		}
		a[col], a[pivot] = a[pivot], a[col]
		inv[col], inv[pivot] = inv[pivot], inv[col]
		scale := 1 / a[col][col]
		for j := range a {
			a[col][j] *= scale
			inv[col][j] *= scale
		}
		for row := range a {
			f := a[row][col]
			if row == col || f == 0 {
				continue
			}
			for j := range a {
				a[row][j] -= float64(f * a[col][j])
				inv[row][j] -= float64(f * inv[col][j])
			}
		}
	}
	return inv
}

// MonthMeans returns the average of a year over each month, January first, by
// the trapezoid rule over its days.
func (y *Year) MonthMeans() (means [12]units.Celsius) {
	i := 0
	for m := range means {
		days := season.MonthDays(time.Month(m + 1))
		sum := 0.0
		for range days {
			next := y[(i+1)%season.YearDays]
			sum += (y[i] + next) / 2
			i++
		}
		means[m] = units.Celsius(sum / float64(days))
	}
	return means
}
