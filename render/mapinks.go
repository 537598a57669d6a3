package render

import (
	"image/color"

	"weekband/render/canvas"
)

// Colours of a map beside the inks of every page.
var (
	ground     = color.NRGBA{R: 0xe9, G: 0xed, B: 0xef, A: 255} // all that is not the territory
	fineGlow   = color.NRGBA{R: 255, G: 255, B: 255, A: 45}
	borderGlow = color.NRGBA{R: 255, G: 255, B: 255, A: 130}
	shoreGlow  = color.NRGBA{R: 255, G: 255, B: 255, A: 130}
)

// Grounds without a week are light and differ by their pattern alone.
var undatedLooks = [...]canvas.Look{
	Never:  {Tone: color.NRGBA{R: 0xf0, G: 0xf2, B: 0xf3, A: 255}, Pattern: canvas.Rising},
	Always: {Tone: color.NRGBA{R: 0xf7, G: 0xf1, B: 0xe4, A: 255}, Pattern: canvas.Dots},
	Flat:   {Tone: color.NRGBA{R: 0xef, G: 0xec, B: 0xf4, A: 255}, Pattern: canvas.Level},
	NoData: {Tone: color.NRGBA{R: 0xff, G: 0xff, B: 0xff, A: 255}, Pattern: canvas.Plain, Edged: true},
}
