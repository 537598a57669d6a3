// Package eye measures colours as an eye sees them: how they stand out from
// each other, how much they differ, and what is left of that in eyes that lack
// a kind of cone.
//
// It takes colours and gives numbers, and never knows what the colours are of.
// Only tests use it.
package eye

import (
	"image/color"
	"math"

	"github.com/lucasb-eyer/go-colorful"
)

// Sight is a kind of sight: a matrix on linear RGB.
type Sight [3][3]float64

// Normal is full sight.
var Normal = Sights["normal sight"]

// Sights are normal sight and three that lack a kind of cone, by name: the matrices of Machado, Oliveira & Fernandes 2009, "A
// physiologically-based model for simulation of color vision deficiency",
// IEEE TVCG 15:1291, severity 1.0, on linear RGB; from memory. The rows of
// each must add to 1: white stays white.
var Sights = map[string]Sight{
	"normal sight": {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protanopia":   {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deuteranopia": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritanopia":   {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

// Seen returns a colour as one kind of sight sees it.
func Seen(c color.NRGBA, m Sight) colorful.Color {
	v, _ := colorful.MakeColor(c)
	r, g, b := v.LinearRgb()
	row := func(k int) float64 { return m[k][0]*r + m[k][1]*g + m[k][2]*b }
	return colorful.LinearRgb(row(0), row(1), row(2)).Clamped()
}

// Difference returns ΔE2000 on the usual scale of 100.
func Difference(a, b colorful.Color) float64 { return 100 * a.DistanceCIEDE2000(b) }

// Contrast returns that of WCAG 2.2, (L1+0.05)/(L2+0.05) of relative luminances, 1 to 21.
func Contrast(a, b color.NRGBA) float64 {
	luminance := func(c color.NRGBA) float64 {
		v, _ := colorful.MakeColor(c)
		r, g, u := v.LinearRgb()
		return 0.2126*r + 0.7152*g + 0.0722*u
	}
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// Over returns a colour laid over an opaque one, by its opacity.
func Over(top, under color.NRGBA) color.NRGBA {
	mix := func(a, b uint8) uint8 {
		return uint8(math.Round((float64(a)*float64(top.A) + float64(b)*float64(255-top.A)) / 255))
	}
	return color.NRGBA{R: mix(top.R, under.R), G: mix(top.G, under.G), B: mix(top.B, under.B), A: 255}
}
