package canvas

import "image/color"

// Inks of every page. Text has at least 7:1 contrast on white, lesser text
// 4.5:1 (WCAG 2.2, SC 1.4.3 and 1.4.6).
var (
	Paper      = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	TextInk    = color.NRGBA{R: 0x23, G: 0x2a, B: 0x33, A: 255}
	LesserInk  = color.NRGBA{R: 0x55, G: 0x5d, B: 0x66, A: 255} // lesser text
	BareGround = color.NRGBA{R: 0xfb, G: 0xfb, B: 0xf9, A: 255} // ground with nothing on it, of a map or a chart
	GuideInk   = color.NRGBA{R: 0xcf, G: 0xd7, B: 0xdb, A: 255} // lines that only guide the eye
	LineInk    = color.NRGBA{R: 0x2c, G: 0x35, B: 0x40, A: 255} // lines that must show
	FineInk    = color.NRGBA{R: 0x2c, G: 0x35, B: 0x40, A: 180} // thin lines between areas and around samples
	Casing     = color.NRGBA{R: 255, G: 255, B: 255, A: 150}    // casing of a dark line, so that it shows on any ground
)
