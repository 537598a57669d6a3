package press

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"

	"codeberg.org/go-pdf/fpdf"

	"weekband/render/plane"
)

// encoded returns an image as PNG, in a palette where its colours fit one.
func encoded(im *image.NRGBA, k Keeper) []byte {
	var b bytes.Buffer
	key := func() Key {
		d := newDigest("embedded PNG")
		d.Image(im, plane.Rect{})
		return d.key()
	}
	err := throughKeeper(k, key, &b, func(w io.Writer) error {
		if few, ok := paletted(im); ok {
			return (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(w, few)
		}
		return png.Encode(w, im)
	})
	if err != nil {
		panic("press: an image of our own: " + err.Error())
	}
	return b.Bytes()
}

// paletted returns an image of at most 256 colours in a palette of them, in the
// order in which they occur.
func paletted(im *image.NRGBA) (*image.Paletted, bool) {
	out := image.NewPaletted(im.Rect, nil)
	index := map[color.NRGBA]uint8{}
	for y := im.Rect.Min.Y; y < im.Rect.Max.Y; y++ {
		for x := im.Rect.Min.X; x < im.Rect.Max.X; x++ {
			c := im.NRGBAAt(x, y)
			i, ok := index[c]
			if !ok {
				if len(index) == 256 {
					return nil, false
				}
				i = uint8(len(index))
				index[c] = i
				out.Palette = append(out.Palette, c)
			}
			out.SetColorIndex(x, y, i)
		}
	}
	return out, true
}

// Image embeds the image as PNG.
func (s *sketch) Image(im *image.NRGBA, r plane.Rect) {
	s.add(fmt.Sprintf(`<image x="%s" y="%s" width="%s" height="%s" preserveAspectRatio="none" href="data:image/png;base64,%s"/>`,
		decimals(r.Left, 2), decimals(r.Top, 2), decimals(r.Width(), 2), decimals(r.Height(), 2), base64.StdEncoding.EncodeToString(encoded(im, s.keeper))))
}

// Image embeds the image: a unit square of its own, whose rows run down against
// the content's Y. The library packs it anew, so it gets it packed quickly.
func (d *document) Image(im *image.NRGBA, r plane.Rect) {
	name := fmt.Sprintf("image-%d", d.images)
	d.images++
	d.put(d.color(color.NRGBA{A: 255})) // the image has its own opacity
	options := fpdf.ImageOptions{ImageType: "png"}
	var file bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&file, im); err != nil {
		panic("press: an image of our own: " + err.Error())
	}
	d.pdf.RegisterImageOptionsReader(name, options, &file)
	_, height := d.pdf.GetPageSize()
	d.put(fmt.Sprintf("q %.4f 0 0 %.4f %.4f %.4f cm", r.Width(), -r.Height(), r.Left, r.Bottom))
	d.pdf.ImageOptions(name, 0, height-1, 1, 1, false, options, 0, "")
	d.put("Q")
}
