package press

import (
	"image"

	"weekband/render/canvas"
	"weekband/render/plane"
)

// Size of a logo on a page: at most so high, in units, and at most so much of
// the page wide.
const (
	logoHeight = 2.2
	logoShare  = 0.2
)

// logoGrain is how many pixels of a logo a layout pixel has at most: on a page
// 8 inches wide, some 600 an inch.
const logoGrain = 4

// logo draws a logo in the top right corner of a room and returns where it
// stands, the zero Rect without one.
func (p *Page) logo(im *image.NRGBA, u float64, room plane.Rect) plane.Rect {
	if im == nil || im.Rect.Empty() {
		return plane.Rect{}
	}
	size := im.Rect.Size()
	k := min(logoHeight*u/float64(size.Y), logoShare*p.Layout.Width/float64(size.X))
	at := plane.Rect{Left: room.Right - float64(k*float64(size.X)), Right: room.Right, Top: room.Top, Bottom: room.Top + float64(k*float64(size.Y))}
	small := canvas.Shrink(im, logoGrain*at.Width(), logoGrain*at.Height())
	p.Layout.Logo = at
	p.Add(func(c canvas.Canvas) { c.Image(small, at) })
	return at
}
