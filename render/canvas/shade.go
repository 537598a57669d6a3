package canvas

import (
	"image/color"
	"math"

	"github.com/lucasb-eyer/go-colorful"
)

// OKLCh returns an opaque colour by lightness from 0 to 1, chroma and hue in
// degrees, at least -360 (Ottosson 2020); chroma is lowered until the screen can
// show it.
func OKLCh(l, c, h float64) color.NRGBA {
	h = math.Mod(h+360, 360)
	shown := colorful.OkLch(l, c, h)
	for c > 0 && !shown.IsValid() {
		c -= 0.002
		shown = colorful.OkLch(l, max(c, 0), h)
	}
	r, g, b := shown.Clamped().RGB255()
	return color.NRGBA{R: r, G: g, B: b, A: 255}
}

// OKLChOf returns lightness, chroma and hue in degrees of an opaque colour.
func OKLChOf(c color.NRGBA) (l, chroma, hue float64) {
	v, _ := colorful.MakeColor(c)
	return v.OkLch()
}

// TextureInk returns a colour for texture on a ground: darker on light ground,
// lighter on dark, 3:1 either way (WCAG 2.2, SC 1.4.11).
func TextureInk(ground color.NRGBA) color.NRGBA {
	l, ch, h := OKLChOf(ground)
	if l > 0.5 {
		return OKLCh(l-0.35, ch, h)
	}
	return OKLCh(l+0.3, ch, h)
}

// GreyOf returns the grey that is as light to the eye, as transparent.
func GreyOf(c color.NRGBA) color.NRGBA {
	opaque := c
	opaque.A = 255
	light, _, _ := OKLChOf(opaque)
	grey := OKLCh(light, 0, 0)
	grey.A = c.A
	return grey
}
