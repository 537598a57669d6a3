package render

import (
	"image/color"

	"weekband/grid/status"
)

// Colours of a map beside the inks of every page.
var (
	ground     = color.NRGBA{R: 0xe9, G: 0xed, B: 0xef, A: 255} // all that is not the territory
	fineGlow   = color.NRGBA{R: 255, G: 255, B: 255, A: 45}
	borderGlow = color.NRGBA{R: 255, G: 255, B: 255, A: 130}
	shoreGlow  = color.NRGBA{R: 255, G: 255, B: 255, A: 130}
)

// Grounds without a week are light and differ by their pattern alone.
var undatedLooks = [...]look{
	Never:  {tone: color.NRGBA{R: 0xf0, G: 0xf2, B: 0xf3, A: 255}, pattern: Rising},
	Always: {tone: color.NRGBA{R: 0xf7, G: 0xf1, B: 0xe4, A: 255}, pattern: Dots},
	Flat:   {tone: color.NRGBA{R: 0xef, G: 0xec, B: 0xf4, A: 255}, pattern: Level},
	NoData: {tone: color.NRGBA{R: 0xff, G: 0xff, B: 0xff, A: 255}, pattern: Plain, edged: true},
}

// The ladder of a week: pale before its time, deep when it is time, warm and
// then faded after it. In grey the five keep apart by lightness and texture.
var statusLooks = [...]look{
	status.Resting:    {tone: oklch(0.92, 0.018, 235), pattern: Plain},
	status.Ahead:      {tone: oklch(0.80, 0.075, 225), pattern: Upright},
	status.OnTime:     {tone: oklch(0.45, 0.10, 240), pattern: Plain},
	status.CatchingUp: {tone: oklch(0.74, 0.14, 65), pattern: Falling},
	status.Past:       {tone: oklch(0.84, 0.035, 60), pattern: Dots},
}

// bandLooks returns the looks of n bands.
func bandLooks(s Season, n int, grey bool) []look {
	looks := make([]look, n)
	tones := s.Palette(n)
	if grey {
		tones = NewGreys(n)
	}
	for i := range looks {
		looks[i].tone = tones[i]
		if grey {
			looks[i].pattern = greyPatterns[i%len(greyPatterns)]
		}
	}
	return looks
}
