package surface

// fullTrust is the share of the way to the farthest station of a neighbourhood
// within which stations are fully trusted. Beyond it trust falls smoothly to
// nothing, so that a station enters and leaves a moving neighbourhood without
// a jump. See doc.go for what it costs.
const fullTrust = 0.5

// leastTrust keeps the variance of an untrusted station finite.
const leastTrust = 1e-6

// taper returns the trust in a station at a share of the way to the farthest.
func taper(share float64) float64 {
	t := (share - fullTrust) / (1 - fullTrust)
	if t <= 0 {
		return 1
	}
	if t >= 1 {
		return 0
	}
	return (1 - t*t) * (1 - t*t)
}
