package soil

// fade returns what is left of D after some days without frost, as a share.
func (r *Response) fade(days float64) float64 {
	if r.tau == 0 {
		return 0
	}
	return fade(days / r.tau)
}

// fade returns e^(−x) for x at least 0, to 1e-10 of itself, and 0 from 20 on.
// math.Exp differs in the last bit from machine to machine.
func fade(x float64) float64 {
	i := int(x * fadeParts)
	if uint(i) >= uint(len(fadeTable)) {
		return 0
	}
	u := x - float64(float64(i)*(1.0/fadeParts))
	e := 1.0/24 - float64(u*(1.0/120)) // the first terms of the series of e^(−u)
	e = 1.0/6 - float64(u*e)
	e = 1.0/2 - float64(u*e)
	e = 1 - float64(u*e)
	return fadeTable[i] * (1 - float64(u*e))
}

const fadeParts = 16

var fadeTable = func() (t [20 * fadeParts]float64) {
	const part = 0.93941306281347578 // e^(−1/16)
	t[0] = 1
	for i := 1; i < len(t); i++ {
		t[i] = t[i-1] * part
	}
	return t
}()
