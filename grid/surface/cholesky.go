package surface

import "math"

// factor is the lower Cholesky factor of a symmetric positive definite matrix,
// packed by rows: row i begins at i(i+1)/2. The diagonal holds reciprocals.
type factor struct {
	n int
	l []float64
}

func packed(n int) int { return n * (n + 1) / 2 }

// row returns elements 0 to i of row i.
func (f *factor) row(i int) []float64 { return f.l[packed(i) : packed(i)+i+1] }

// decompose turns a packed lower triangle into its factor in place. A column
// that the ones before it already span, to 1e-11 of its own square, is taken
// out of the equations: its solution is 0. It returns how many were.
func (f *factor) decompose() (dropped int) {
	const tol = 1e-11 // of the diagonal; rounding leaves about 1e-14
	for i := range f.n {
		ri := f.row(i)
		for j := range i {
			rj := f.row(j)
			ri[j] = (ri[j] - dot(ri[:j], rj[:j])) * rj[j]
		}
		d := ri[i] - dot(ri[:i], ri[:i])
		if d <= tol*ri[i] {
			ri[i] = 0
			dropped++
			continue
		}
		ri[i] = 1 / math.Sqrt(d)
	}
	return dropped
}

// forward solves L x = b in place.
func (f *factor) forward(b []float64) {
	b = b[:f.n]
	for i := range b {
		r := f.row(i)
		b[i] = (b[i] - dot(r[:i], b[:i])) * r[i]
	}
}

// backward solves Lᵀ x = b in place.
func (f *factor) backward(b []float64) {
	b = b[:f.n]
	for i := f.n - 1; i >= 0; i-- {
		r := f.row(i)
		b[i] *= r[i]
		subtract(b[:i], r[:i], b[i])
	}
}

// dot is the inner product; four sums at once keep the adders busy.
func dot(a, b []float64) float64 {
	b = b[:len(a)]
	var s0, s1, s2, s3 float64
	i := 0
	for ; i+4 <= len(a); i += 4 {
		x, y := a[i:i+4:i+4], b[i:i+4:i+4]
		s0 += float64(x[0] * y[0])
		s1 += float64(x[1] * y[1])
		s2 += float64(x[2] * y[2])
		s3 += float64(x[3] * y[3])
	}
	for ; i < len(a); i++ {
		s0 += float64(a[i] * b[i])
	}
	return (s0 + s1) + (s2 + s3)
}

// subtract takes times·b off a.
func subtract(a, b []float64, times float64) {
	b = b[:len(a)]
	for i := range a {
		a[i] -= float64(times * b[i])
	}
}

// logDeterminant returns the logarithm of the determinant of the matrix that
// was decomposed, without the columns taken out.
func (f *factor) logDeterminant() float64 {
	sum := 0.0
	for i := range f.n {
		if d := f.l[packed(i)+i]; d > 0 {
			sum -= float64(2 * math.Log(d))
		}
	}
	return sum
}
