package looks

import (
	"image/color"

	"weekband/render/canvas"
)

// Palette holds one colour per class, from the earliest to the latest.
type Palette []color.NRGBA

// knot is one colour the season runs through: chroma and hue in OKLCh
// (Ottosson 2020). The lightness is not the knot's: it falls evenly.
type knot struct{ chroma, hue float64 }

// Scheme is a set of colours for the weeks of the year. All lead from light in
// the earliest week to dark in the latest, and none passes green or teal.
type Scheme uint8

const (
	// Wheatnight leads from ripe wheat in the earliest week by amber, clay and
	// mauve to a winter night in the latest.
	Wheatnight Scheme = iota
	// Millpond leads from morning mist by apricot and rose to deep water: calmer,
	// cooler and lighter, for less ink.
	Millpond
)

// Schemes lists them.
var Schemes = [...]Scheme{Wheatnight, Millpond}

// String returns the word a recipe uses.
func (s Scheme) String() string { return [...]string{"wheatnight", "millpond"}[s] }

// seasonColors are the knots of a season, evenly apart, and the lightness in
// OKLCh of the first and the last class.
type seasonColors struct {
	knots             []knot
	lightest, darkest float64
}

// The hues of both pass red-purple, not green, so that the common deficiencies
// of colour vision keep yellow against blue, and the falling lightness carries
// the order alone.
var seasons = [...]seasonColors{
	Wheatnight: {
		knots:    []knot{{0.055, 88}, {0.103, 93.4}, {0.148, 56.4}, {0.11, 22}, {0.06, -50.7}, {0.1345, -75.7}, {0.059, -88.9}},
		lightest: 0.95, darkest: 0.28,
	},
	Millpond: {
		knots:    []knot{{0.0202, 69}, {0.0759, 74}, {0.1199, 67}, {0.0257, -39.7}, {0.0704, -91.8}, {0.115, -94}, {0.0393, -76.5}},
		lightest: 0.965, darkest: 0.36,
	},
}

// NewPalette returns n colours of Wheatnight, as its Palette does.
func NewPalette(n int) Palette { return Wheatnight.Palette(n) }

// Palette returns n colours in the order of the season, the earliest
// lightest, each darker than the one before. Up to eighteen stay apart for
// normal sight and under protanopia, deuteranopia and tritanopia.
func (s Scheme) Palette(n int) Palette {
	p := make(Palette, n)
	for i := range p {
		t := float64(i) / float64(max(n-1, 1))
		if n < 4 { // keep off the ends: neither near white nor near black
			t = 0.5 + 1.12*(float64(i)-float64(n-1)/2)/float64(n)
		}
		p[i] = seasons[s].at(t)
	}
	return p
}

// at returns the colour at t from 0 to 1 along the season.
func (s seasonColors) at(t float64) color.NRGBA {
	x := float64(t * float64(len(s.knots)-1))
	i := min(int(x), len(s.knots)-2)
	f := x - float64(i)
	a, b := s.knots[i], s.knots[i+1]
	return canvas.OKLCh(s.lightest+float64(t*(s.darkest-s.lightest)), a.chroma+float64(f*(b.chroma-a.chroma)), a.hue+float64(f*(b.hue-a.hue)))
}

// NewGreys returns n greys, the earliest lightest. The steps are even to the
// eye; from seven on neighbours also need a pattern, which Grey maps add.
func NewGreys(n int) Palette {
	p := make(Palette, n)
	for i := range p {
		t := (float64(i) + 0.5) / float64(n)
		if n > 3 {
			t = float64(i) / float64(n-1)
		}
		p[i] = canvas.OKLCh(0.93+float64(t*(0.42-0.93)), 0, 0)
	}
	return p
}

// greyPatterns alternate with plain greys on grey maps, so that neighbours
// never share a texture.
var greyPatterns = [...]canvas.Pattern{canvas.Plain, canvas.Level, canvas.Plain, canvas.Upright}
