package canvas

import (
	"image"
	"math"

	xdraw "golang.org/x/image/draw"
)

// Shrink returns an image with no more than so many pixels each way: itself,
// when it has not, else one whose pixels are means of its own.
func Shrink(im *image.NRGBA, width, height float64) *image.NRGBA {
	size := image.Pt(max(1, int(math.Ceil(width))), max(1, int(math.Ceil(height))))
	if im.Rect.Dx() <= size.X && im.Rect.Dy() <= size.Y {
		return im
	}
	out := image.NewNRGBA(image.Rectangle{Max: size})
	xdraw.BiLinear.Scale(out, out.Rect, im, im.Rect, xdraw.Src, nil)
	return out
}
