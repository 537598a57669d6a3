package canvas

import (
	"image"
	"image/draw"
)

// kept is a layer as painted.
type kept struct {
	uses int
	im   *image.RGBA
}

// Layer copies a painting of its own of the layer, so that the first page and
// later ones are alike to the last bit. It keeps the painting from the second
// use on.
func (b *Bitmap) Layer(l *Layer) {
	im := l.painting(b.scale)
	draw.Draw(b.Painted(), im.Rect.Sub(b.origin), im, im.Rect.Min, draw.Over)
}

func (l *Layer) painting(scale float64) *image.RGBA {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.kept == nil {
		l.kept = map[float64]*kept{}
	}
	k := l.kept[scale]
	if k == nil {
		k = &kept{}
		l.kept[scale] = k
	}
	if k.im != nil {
		return k.im
	}
	b := NewBitmap(l.room.Right, l.room.Bottom, scale)
	l.Draw(b)
	im := b.Painted().SubImage(b.Pixels(l.room)).(*image.RGBA)
	if k.uses++; k.uses > 1 {
		k.im = im
	}
	return im
}
