package surface

// leastTrust keeps the variance of an untrusted station finite.
const leastTrust = 1e-6

// taper returns the trust in a station at a share of the way to the farthest
// of the neighbourhood, from 1 down to 0: Tukey's biweight. Stations enter and
// leave a moving neighbourhood without a jump. See doc.go for what it costs.
func taper(share float64) float64 {
	t := max(0, 1-float64(share*share))
	return t * t
}
