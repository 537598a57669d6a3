package press

import (
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"
	"math"
)

// Print is how a page is to come out on paper.
type Print struct {
	Width float64 // of the page in inches
	DPI   float64 // image pixels per inch; 300 when 0
}

// dpi returns the pixels per inch.
func (r Print) dpi() float64 {
	if r.DPI == 0 {
		return 300
	}
	return r.DPI
}

// PrintScale returns the image pixels per layout pixel with which the page
// has a printed width, rounded to a billionth: two are two, not a little less.
func (p *Page) PrintScale(r Print) float64 {
	return math.Round(1e9*r.Width*r.dpi()/p.Layout.Width) / 1e9
}

// PrintPNG writes the page as PNG returns it at PrintScale, and says in it how
// large to print it. It returns the errors of PNG, and one when the width is
// not above 0 or the resolution not from 72 to 1200.
func (p *Page) PrintPNG(w io.Writer, r Print) error {
	if !(r.Width > 0) || !(r.dpi() >= 72 && r.dpi() <= 1200) {
		return fmt.Errorf("press: a print %g in wide at %g pixels per inch; want a width above 0 and 72 to 1200", r.Width, r.dpi())
	}
	return p.png(w, p.PrintScale(r), physical(r.dpi()))
}

// physical returns the pHYs chunk (PNG, third edition, section 11.3.4.3):
// pixels per metre across and down. It stands anywhere before the pixels.
func physical(dpi float64) []byte {
	const metre = 1 // the unit
	perMetre := uint32(math.Round(dpi / mmPerInch * 1000))
	data := binary.BigEndian.AppendUint32(nil, perMetre)
	data = binary.BigEndian.AppendUint32(data, perMetre)
	return chunk("pHYs", append(data, metre))
}

// chunk returns a chunk of a PNG (third edition, section 5.3).
func chunk(kind string, data []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	out = append(append(out, kind...), data...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[4:]))
}
