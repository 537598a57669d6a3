package asc

import (
	"math"
	"strconv"
)

var (
	pow10f32 = [...]float32{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10}
	pow10f64 = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10,
		1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}
)

// parse returns the float32 nearest to a decimal number. Plain numbers such
// as -12.25 are read here, correctly rounded because both operands of the
// division are exact (Clinger 1990); all others go to strconv. Infinity
// stands for a number too large; ok is false for anything else.
func parse(tok []byte) (v float32, ok bool) {
	var mant uint64
	digits, frac, i := 0, -1, 0
	neg := false
	if len(tok) > 0 && (tok[0] == '-' || tok[0] == '+') {
		neg = tok[0] == '-'
		i = 1
	}
	for ; i < len(tok); i++ {
		c := tok[i]
		switch {
		case c >= '0' && c <= '9':
			mant = mant*10 + uint64(c-'0')
			digits++
			if frac >= 0 {
				frac++
			}
		case c == '.' && frac < 0:
			frac = 0
		default:
			return parseSlow(tok)
		}
		if digits > 15 { // 10^15 < 2^53
			return parseSlow(tok)
		}
	}
	if digits == 0 {
		return 0, false
	}
	frac = max(frac, 0)
	if mant < 1<<24 && frac < len(pow10f32) {
		v = float32(mant) / pow10f32[frac]
	} else {
		d := float64(mant) / pow10f64[frac]
		if math.Float64bits(d)&(1<<29-1) == 1<<28 { // halfway between two float32: rounding twice could err
			return parseSlow(tok)
		}
		v = float32(d)
	}
	if neg {
		v = -v
	}
	return v, true
}

// parseSlow reads exponents and long numbers. It refuses the words, signs of
// base and underscores that strconv knows beyond decimal numbers.
func parseSlow(tok []byte) (float32, bool) {
	for _, c := range tok {
		if (c < '0' || c > '9') && c != '-' && c != '+' && c != '.' && c|0x20 != 'e' {
			return 0, false
		}
	}
	v, err := strconv.ParseFloat(string(tok), 32)
	if err != nil && !math.IsInf(v, 0) {
		return 0, false
	}
	return float32(v), true
}

// isNaN reports whether a word is a way of writing "not a number".
func isNaN(tok []byte) bool {
	if len(tok) > 0 && (tok[0] == '-' || tok[0] == '+') {
		tok = tok[1:]
	}
	return len(tok) == 3 && tok[0]|0x20 == 'n' && tok[1]|0x20 == 'a' && tok[2]|0x20 == 'n'
}
