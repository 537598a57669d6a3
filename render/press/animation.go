package press

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
	if len(s.frames) == 1 {
		only, err := s.film(1, step, hold)
		if err == nil {
			_, err = w.Write(only)
		}
		return err
	}
	// What follows the first frame does not show the title, if all have the same.
	keeper := s.keeper
	if slices.ContainsFunc(s.frames, func(f picture) bool { return !bytes.Equal(f.head.packed, s.frames[0].head.packed) }) {
		keeper = nil
	}
	key := func() Key {
		d := newDigest("rest of a GIF")
		d.text(string(s.key[:]))
		d.numbers(float64(hundredths(step)), float64(hundredths(hold)))
		return d.key()
	}
	var rest bytes.Buffer
	err := throughKeeper(keeper, key, &rest, func(w io.Writer) error {
		all, err := s.film(len(s.frames), step, hold)
		if err == nil {
			_, err = w.Write(all[afterFirst(all):])
		}
		return err
	})
	if err != nil {
		return err
	}
	first, err := s.film(2, step, hold) // that it is one of several stands in the file's head
	if err != nil {
		return err
	}
	for _, part := range [][]byte{first[:afterFirst(first)], rest.Bytes()} {
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return nil
}

// afterFirst returns where in a GIF the first image ends (GIF89a, sections 15
// to 22: a header of 13 bytes, the palette, blocks).
func afterFirst(file []byte) int {
	at := 13 + 3<<(file[10]&7+1)
	subBlocks := func() {
		for file[at] > 0 {
			at += 1 + int(file[at])
		}
		at++
	}
	for file[at] == '!' { // extensions
		at += 2
		subBlocks()
	}
	at += 10 + 1 // descriptor of an image that has the file's palette; the size of its codes
	subBlocks()
	return at
}

// film returns the first n frames as a GIF.
func (s *Series) film(n int, step, hold time.Duration) ([]byte, error) {
	palette := append(slices.Clip(s.palette()), color.RGBA{})
	size := s.Size()
	film := gif.GIF{Config: image.Config{ColorModel: palette, Width: size.X, Height: size.Y}}
	var shown *image.Paletted
	for i, f := range s.frames[:n] {
		next := image.NewPaletted(image.Rectangle{Max: size}, nil)
		copy(next.Pix[copy(next.Pix, f.head.pixels(size.X)):], f.body.pixels(size.X))
		part := next
		if shown != nil {
			part = change(shown, next, uint8(len(palette)-1))
		}
		part.Palette = palette
		film.Image = append(film.Image, part)
		delay := step
		if i == len(s.frames)-1 {
			delay = hold
		}
		film.Delay = append(film.Delay, hundredths(delay))
		film.Disposal = append(film.Disposal, gif.DisposalNone)
		shown = next
	}
	var b bytes.Buffer // the encoder makes a write of every few bytes
	err := gif.EncodeAll(&b, &film)
	return b.Bytes(), err
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
