package press

import (
	"fmt"
	"image/color"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"weekband/render/canvas"
	"weekband/render/plane"
)

// PDF writes the page as a PDF document of one sheet: the page as large as
// its margins of 12 mm let it be, drawn in lines and shapes, with its fonts
// embedded and its words to be searched and copied. Places are rounded to a
// tenth of a layout pixel. The same page gives the same bytes. It returns the
// errors of w, and one when the description lacks a title or its language is
// no language tag.
func (p *Page) PDF(w io.Writer, size PaperSize, d Description) error {
	if err := d.check(); err != nil {
		return err
	}
	return throughKeeper(p.keeper, func() Key { return p.key("PDF "+size.String(), d) }, w, func(w io.Writer) error { return p.pdf(w, size, d) })
}

func (p *Page) pdf(w io.Writer, size PaperSize, d Description) error {
	sheet := size.lay(p.Layout)
	doc := newDocument(sheet, size, d)
	doc.put(fmt.Sprintf("q %.6f 0 0 %.6f %.4f %.4f cm 1 J 1 j", sheet.scale, -sheet.scale, sheet.left, sheet.height-sheet.top))
	p.Draw(doc)
	doc.put("Q")
	doc.keepGlyphs()
	if err := doc.pdf.Output(w); err != nil {
		return fmt.Errorf("press: PDF: %w", err)
	}
	return nil
}

// document is the Canvas that writes a PDF, by go-pdf/fpdf. The content is in
// layout pixels, Y down, under one transformation.
type document struct {
	pdf   *fpdf.Fpdf
	alpha uint8 // now in force

	images int // embedded so far
	faces  [len(fontNames)]map[rune]bool
}

// noClock stands for the time of writing, so that bytes repeat.
var noClock = time.Unix(0, 0).UTC()

func newDocument(s sheet, size PaperSize, d Description) *document {
	orientation := "P"
	if s.lying {
		orientation = "L"
	}
	pdf := fpdf.New(orientation, "pt", size.String(), "")
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(noClock)
	pdf.SetModificationDate(noClock)
	pdf.SetProducer("weekband", true)
	pdf.SetTitle(d.Title, true)
	pdf.SetSubject(d.Desc, true)
	pdf.SetLang(d.lang())
	pdf.SetAutoPageBreak(false, 0)
	pdf.AddPage()
	return &document{pdf: pdf, alpha: 255}
}

// put writes operators of the content stream.
func (d *document) put(operators string) { d.pdf.RawWriteStr(operators) }

// color sets the colours of fills and strokes.
func (d *document) color(c color.NRGBA) string {
	if c.A != d.alpha {
		d.pdf.SetAlpha(float64(c.A)/255, "Normal")
		d.alpha = c.A
	}
	part := func(v uint8) string { return decimals(float64(v)/255, 3) + " " }
	rgb := part(c.R) + part(c.G) + part(c.B)
	return rgb + "rg " + rgb + "RG "
}

func (d *document) Fill(p *plane.Path, c color.NRGBA) { d.paint(p, d.color(c), "f") }

func (d *document) Stroke(p *plane.Path, pen canvas.Pen) {
	d.paint(p, d.color(pen.Color)+decimals(pen.Width, 2)+" w ", "S")
}

// Dots draws points with a round pen.
func (d *document) Dots(at []plane.Pixel, radius float64, c color.NRGBA) {
	d.Stroke(points(at), canvas.Pen{Color: c, Width: 2 * radius})
}

// paint writes a path between a state and the operator that uses it.
func (d *document) paint(p *plane.Path, state, operator string) {
	if path := p.PDF(); path != "" {
		d.put(state + path + operator)
	}
}

// overlap is how far, in layout pixels, the pieces of a mosaic reach over
// each other in all: viewers smooth each edge by itself, and what lies below
// would show.
const overlap = 1

// Mosaic lets each piece reach under the next.
func (d *document) Mosaic(pieces []canvas.Piece) {
	for i, p := range meshed(pieces) {
		d.paint(p, d.color(pieces[i].Color)+decimals(overlap, 2)+" w ", "B")
	}
}

func (d *document) Clip(inside canvas.Stencil, draw func(canvas.Canvas)) {
	alpha := d.alpha
	d.put("q")
	if path := outlineOf(inside.Path()).PDF(); path != "" {
		d.put(path + "W n")
	} else {
		d.put("0 0 0 0 re W n") // nothing is inside
	}
	draw(d)
	d.put("Q")
	d.alpha = alpha
}

// Layer draws what pages share in full: a document stands alone.
func (d *document) Layer(l *canvas.Layer) { l.Draw(d) }
