package press_test

import (
	"bytes"
	"fmt"
	"image/png"

	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
)

// A page of a title, a hatched area and a line of credit becomes PNG, SVG and
// PDF.
func Example() {
	p := press.NewPage(480, 240, false, nil)
	u := press.UnitOf(p.Layout.Width)
	said := press.Caption{Title: "Merrow Vale", Source: "Invented."}
	y := p.Header(said, u, plane.Rect{Left: 20, Top: 20, Right: 460})
	look := canvas.Look{Tone: canvas.OKLCh(0.8, 0.1, 90), Pattern: canvas.Rising}
	p.Fill(plane.RectPath(plane.Rect{Left: 20, Top: y, Right: 460, Bottom: y + 100}), look, u)
	p.Credits(said, u, plane.Rect{Left: 20, Top: y + 110, Right: 460})

	var picture, svg, pdf bytes.Buffer
	d := press.Description{Title: "Merrow Vale", Desc: "A hatched box."}
	for _, err := range []error{p.PNG(&picture, 2), p.SVG(&svg, d), p.PDF(&pdf, press.A4, d)} {
		if err != nil {
			fmt.Println(err)
		}
	}
	size, _ := png.DecodeConfig(&picture)
	fmt.Println("PNG of", size.Width, "by", size.Height)
	fmt.Println(svg.String()[:4], pdf.String()[:4])
	for _, b := range p.Layout.Boxes {
		fmt.Printf("%q at %.0f, %.0f\n", b.Text, b.Left, b.Top)
	}
	// Output:
	// PNG of 960 by 480
	// <svg %PDF
	// "Merrow Vale" at 20, 20
	// "Invented." at 20, 173
}
