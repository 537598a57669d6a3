package looks

import (
	"math"

	"weekband/render/canvas"
)

// Sea glass: hues and chroma of a quantity's least and greatest class, and the
// chroma added between them. No week has these hues, so that nobody
// takes days of error for weeks of the year: the palette of the season turns
// from yellow by red to blue and never passes green or teal.
const (
	leastHue, greatestHue       = 180.0, 206.0
	leastChroma, greatestChroma = 0.03, 0.05
	bulge                       = 0.025
	palest, deepest             = 0.95, 0.30 // lightness
)

// NewAmounts returns n colours for the classes of a quantity, the least
// lightest, each darker than the one before. Up to seven stay apart for normal
// sight and under protanopia, deuteranopia and tritanopia.
func NewAmounts(n int) Palette {
	p := make(Palette, n)
	for i := range p {
		t := float64(i) / float64(max(n-1, 1))
		if n < 4 { // keep off the ends: neither near white nor near black
			t = 0.06 + 0.88*(float64(i)+0.5)/float64(n)
		}
		chroma := leastChroma + float64(t*(greatestChroma-leastChroma)) + float64(4*bulge*t*(1-t))
		p[i] = canvas.OKLCh(palest+float64(t*(deepest-palest)), chroma, leastHue+float64(t*(greatestHue-leastHue)))
	}
	return p
}

// The two sides of a change: leaf green below the middle and heather above,
// as deep as each other at the same distance. Green and purple-red keep apart under the
// common deficiencies of colour vision as yellow and blue do.
const (
	belowHue, aboveHue    = 138.0, 332.0
	middleLight, farLight = 0.965, 0.42 // lightness
)

// NewChanges returns n colours for classes on both sides of a middle one, n
// odd: neutral in the middle and deeper away from it, equally on both sides.
// Up to seven stay apart as those of NewAmounts do.
func NewChanges(n int) Palette {
	p := make(Palette, n)
	sides := n / 2
	for i := range p {
		t := math.Abs(float64(i-sides)) / float64(max(sides, 1))
		if sides == 1 {
			t *= 0.7 // keep off the end
		}
		hue := belowHue
		if i > sides {
			hue = aboveHue
		}
		p[i] = canvas.OKLCh(middleLight+float64(t*(farLight-middleLight)), 0.27*t*(1-float64(0.62*t)), hue)
	}
	return p
}

// Amounts returns the looks of n classes of a quantity, from the least. In grey every
// other one has lines, in no direction that ground without a value has.
func Amounts(n int, grey bool) []canvas.Look {
	if !grey {
		return toned(NewAmounts(n))
	}
	looks := toned(NewGreys(n))
	for i := range looks {
		if i%2 == 1 {
			looks[i].Pattern = canvas.Upright
		}
	}
	return looks
}

// Changes returns the looks of n classes, n odd, on both sides of a middle one. In
// grey, where both sides are as dark, lines tell the one below from the other.
func Changes(n int, grey bool) []canvas.Look {
	looks := toned(NewChanges(n))
	for i := range looks {
		if grey {
			looks[i].Tone = canvas.GreyOf(looks[i].Tone)
			if i < n/2 {
				looks[i].Pattern = canvas.Upright
			}
		}
	}
	return looks
}

func toned(p Palette) []canvas.Look {
	looks := make([]canvas.Look, len(p))
	for i, c := range p {
		looks[i].Tone = c
	}
	return looks
}
