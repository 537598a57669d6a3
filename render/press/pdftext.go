package press

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/sfnt"

	"weekband/render/canvas"
	"weekband/render/plane"
)

// fontNames are those of the fonts in a document.
var fontNames = [...]struct{ family, style string }{
	canvas.Regular: {"LiberationSans", ""},
	canvas.Bold:    {"LiberationSans", "B"},
	canvas.Italic:  {"LiberationSans", "I"},
	canvas.Heading: {"LiberationSerif", "B"},
}

// font makes a typeface the current one, at a size of 1.
func (d *document) font(face canvas.Typeface) {
	f := fontNames[face]
	if d.faces[face] == nil {
		d.faces[face] = map[rune]bool{}
		d.pdf.AddUTF8FontFromBytes(f.family, f.style, bytes.Clone(face.TrueType())) // it changes what it is given
	}
	d.pdf.SetFont(f.family, f.style, 1)
}

// keepGlyphs tells the library which glyphs the text uses, which it takes only
// from text of its own: a drawing that is not shown.
func (d *document) keepGlyphs() {
	d.pdf.CreateTemplate(func(t *fpdf.Tpl) {
		for face, runes := range d.faces {
			if runes == nil {
				continue
			}
			t.SetFont(fontNames[face].family, fontNames[face].style, 1)
			for r := range runes {
				t.Text(0, 0, string(r))
			}
		}
	})
}

// Text writes a line as one string, kerned as in the layout. Its rim is drawn,
// not written, so that the words are there once.
func (d *document) Text(t canvas.Text) {
	left := t.Bounds().Left
	if t.Halo > 0 {
		d.put(d.color(canvas.HaloInk) + decimals(2*t.Halo, 2) + " w " + glyphs(t) + "S")
	}
	state := d.color(t.Color)
	d.font(t.Font.Face)
	size := decimals(t.Font.Size, 3)
	d.put(fmt.Sprintf("%sBT %s 0 0 -%s %s %s Tm [%s] TJ ET", state, size, size, decimals(left, 2), decimals(t.At.Y, 2), d.shown(t)))
}

// shown returns the line as the strings and shifts of a TJ operator. The font
// counts in thousandths of its size; shifts make up for kerning and for
// rounding.
func (d *document) shown(t canvas.Text) string {
	var out strings.Builder
	out.WriteByte('<')
	at := 0                                            // where the next glyph would stand
	t.Font.Letters(t.String, func(r rune, x float64) { // of which none has more than 16 bits, as the encoding
		if shift := at - int(math.Round(1000*x/t.Font.Size)); shift < -1 || shift > 1 {
			fmt.Fprintf(&out, ">%d<", shift)
			at -= shift
		}
		fmt.Fprintf(&out, "%04x", r)
		d.faces[t.Font.Face][r] = true
		at += d.pdf.GetStringSymbolWidth(string(r))
	})
	out.WriteByte('>')
	return out.String()
}

// glyphs returns the outlines of the glyphs of a line as operators.
func glyphs(t canvas.Text) string {
	var out strings.Builder
	var at plane.Pixel
	t.Outline(func(op sfnt.SegmentOp, p [3]plane.Pixel) { at = appendSegment(&out, op, at, p) })
	return out.String()
}

// appendSegment writes a segment of an outline and returns its end. A
// quadratic curve becomes a cubic one.
func appendSegment(out *strings.Builder, op sfnt.SegmentOp, at plane.Pixel, p [3]plane.Pixel) plane.Pixel {
	put := func(operator string, points ...plane.Pixel) plane.Pixel {
		for _, q := range points {
			out.WriteString(decimals(q.X, 1) + " " + decimals(q.Y, 1) + " ")
		}
		out.WriteString(operator + "\n")
		return points[len(points)-1]
	}
	third := func(a, b plane.Pixel) plane.Pixel { // two thirds of the way
		return plane.Pixel{X: (a.X + float64(2*b.X)) / 3, Y: (a.Y + float64(2*b.Y)) / 3}
	}
	switch op {
	case sfnt.SegmentOpMoveTo:
		return put("m", p[0])
	case sfnt.SegmentOpQuadTo:
		return put("c", third(at, p[0]), third(p[1], p[0]), p[1])
	case sfnt.SegmentOpCubeTo:
		return put("c", p[0], p[1], p[2])
	}
	return put("l", p[0])
}
