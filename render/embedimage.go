package render

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"

	"codeberg.org/go-pdf/fpdf"
)

// encoded returns an image as PNG.
func encoded(im *image.NRGBA, k Keeper) []byte {
	var b bytes.Buffer
	key := func() Key {
		d := newDigest("embedded PNG")
		d.Image(im, Rect{})
		return d.key()
	}
	err := throughKeeper(k, key, &b, func(w io.Writer) error {
		return (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(w, im)
	})
	if err != nil {
		panic("render: an image of our own: " + err.Error())
	}
	return b.Bytes()
}

// Image embeds the image as PNG.
func (s *sketch) Image(im *image.NRGBA, r Rect) {
	s.add(fmt.Sprintf(`<image x="%s" y="%s" width="%s" height="%s" preserveAspectRatio="none" href="data:image/png;base64,%s"/>`,
		decimals(r.Left, 2), decimals(r.Top, 2), decimals(r.Width(), 2), decimals(r.Height(), 2), base64.StdEncoding.EncodeToString(encoded(im, s.keeper))))
}

// Image embeds the image: a unit square of its own, whose rows run down against
// the content's Y.
func (d *document) Image(im *image.NRGBA, r Rect) {
	name := fmt.Sprintf("image-%d", d.images)
	d.images++
	d.put(d.color(color.NRGBA{A: 255})) // the image has its own opacity
	options := fpdf.ImageOptions{ImageType: "png"}
	d.pdf.RegisterImageOptionsReader(name, options, bytes.NewReader(encoded(im, d.keeper)))
	_, height := d.pdf.GetPageSize()
	d.put(fmt.Sprintf("q %.4f 0 0 %.4f %.4f %.4f cm", r.Width(), -r.Height(), r.Left, r.Bottom))
	d.pdf.ImageOptions(name, 0, height-1, 1, 1, false, options, 0, "")
	d.put("Q")
}
