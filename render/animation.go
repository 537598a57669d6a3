package render

import (
	"bytes"
	"image"
	"image/color"
	"image/gif"
	"io"
	"slices"
	"time"
)

// GIF writes the series as a GIF89a that plays its frames one after the other,
// each for step and the last for hold, and begins again. All frames share the
// one palette of the file; each holds only the rectangle that changes, and of
// it only the pixels that do. Times are rounded to hundredths of a second. The
// same series gives the same bytes. It returns the errors of w.
func (s *Series) GIF(w io.Writer, step, hold time.Duration) error {
	palette := append(slices.Clip(s.palette), color.RGBA{})
	film := gif.GIF{Config: image.Config{ColorModel: palette, Width: s.frames[0].size.X, Height: s.frames[0].size.Y}}
	var shown *image.Paletted
	for _, f := range s.frames {
		next := f.paletted(s.reduction)
		part := next
		if shown != nil {
			part = change(shown, next, uint8(len(s.palette)))
		}
		part.Palette = palette
		film.Image = append(film.Image, part)
		film.Delay = append(film.Delay, hundredths(step))
		film.Disposal = append(film.Disposal, gif.DisposalNone)
		shown = next
	}
	film.Delay[len(film.Delay)-1] = hundredths(hold)
	var b bytes.Buffer // the encoder makes a write of every few bytes
	if err := gif.EncodeAll(&b, &film); err != nil {
		return err
	}
	_, err := b.WriteTo(w)
	return err
}

// hundredths returns a time in the unit of GIF.
func hundredths(d time.Duration) int {
	return int(d.Round(10*time.Millisecond) / (10 * time.Millisecond))
}

// change returns what to lay over an image to make the next of it: the
// rectangle in which they differ, see-through where they do not. Between
// images alike it is one see-through pixel.
func change(from, to *image.Paletted, hole uint8) *image.Paletted {
	r := differ(from, to)
	if r.Empty() {
		r = image.Rect(0, 0, 1, 1)
	}
	out := image.NewPaletted(r, nil)
	for y := r.Min.Y; y < r.Max.Y; y++ {
		i := to.PixOffset(r.Min.X, y)
		old, row := from.Pix[i:i+r.Dx()], out.Pix[out.PixOffset(r.Min.X, y):]
		for x, v := range to.Pix[i : i+r.Dx()] {
			if v == old[x] {
				v = hole
			}
			row[x] = v
		}
	}
	return out
}

// differ returns the smallest rectangle that holds all pixels in which images
// of one size differ.
func differ(a, b *image.Paletted) image.Rectangle {
	var r image.Rectangle
	for y := range a.Rect.Dy() {
		rowA, rowB := a.Pix[y*a.Stride:][:a.Rect.Dx()], b.Pix[y*b.Stride:][:b.Rect.Dx()]
		left := 0
		for left < len(rowA) && rowA[left] == rowB[left] {
			left++
		}
		if left == len(rowA) {
			continue
		}
		right := len(rowA)
		for rowA[right-1] == rowB[right-1] {
			right--
		}
		r = r.Union(image.Rect(left, y, right, y+1))
	}
	return r
}
