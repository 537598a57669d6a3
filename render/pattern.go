package render

import "math"

// Pattern is a drawn texture that tells areas apart without colour.
type Pattern uint8

const (
	Plain   Pattern = iota
	Rising          // lines from lower left to upper right
	Falling         // lines from upper left to lower right
	Level           // horizontal lines
	Upright         // vertical lines
	Dots            // dots in staggered rows
	Wide            // like Falling, with twice the distance
)

// texture returns the geometry for a unit of length u in pixels, the size of
// small text.
func (p Pattern) texture(u float64) hatch {
	fine := u * 0.46
	switch p {
	case Rising:
		return hatch{angle: -math.Pi / 4, spacing: fine}
	case Wide:
		return hatch{angle: math.Pi / 4, spacing: 1.7 * fine}
	case Falling:
		return hatch{angle: math.Pi / 4, spacing: fine}
	case Level:
		return hatch{angle: 0, spacing: fine}
	case Upright:
		return hatch{angle: math.Pi / 2, spacing: fine}
	case Dots:
		return hatch{angle: math.Pi / 6, spacing: fine * 1.15, dotted: true}
	}
	return hatch{}
}
