package canvas

import (
	"math"

	"weekband/render/plane"
)

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
func (p Pattern) texture(u float64) plane.Hatch {
	fine := u * 0.46
	switch p {
	case Rising:
		return plane.Hatch{Angle: -math.Pi / 4, Spacing: fine}
	case Wide:
		return plane.Hatch{Angle: math.Pi / 4, Spacing: 1.7 * fine}
	case Falling:
		return plane.Hatch{Angle: math.Pi / 4, Spacing: fine}
	case Level:
		return plane.Hatch{Angle: 0, Spacing: fine}
	case Upright:
		return plane.Hatch{Angle: math.Pi / 2, Spacing: fine}
	case Dots:
		return plane.Hatch{Angle: math.Pi / 6, Spacing: fine * 1.15, Dotted: true}
	}
	return plane.Hatch{}
}
