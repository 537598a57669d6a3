package press

import "weekband/render/canvas"

// Fonts by face. The first is that of the layout; the others are the usual
// ones with its widths, then whatever the viewer has. textLength keeps the
// width of the layout in any of them.
var fontAttributes = [...]string{
	canvas.Regular: `font-family="'Liberation Sans',Arimo,Arial,Helvetica,sans-serif"`,
	canvas.Bold:    `font-family="'Liberation Sans',Arimo,Arial,Helvetica,sans-serif" font-weight="bold"`,
	canvas.Italic:  `font-family="'Liberation Sans',Arimo,Arial,Helvetica,sans-serif" font-style="italic"`,
	canvas.Heading: `font-family="'Liberation Serif',Tinos,'Times New Roman',Times,serif" font-weight="bold"`,
}

var anchors = [...]string{canvas.Start: "", canvas.Middle: ` text-anchor="middle"`, canvas.End: ` text-anchor="end"`}

// Text adds a line; lines in one style that follow each other share a group.
func (s *sketch) Text(t canvas.Text) {
	if t.String == "" {
		return
	}
	style := fontAttributes[t.Font.Face] + ` font-size="` + decimals(t.Font.Size, 2) + `" ` + paintOf("fill", t.Color) + anchors[t.Anchor]
	if t.Halo > 0 {
		style += " " + penOf(canvas.Pen{Color: canvas.HaloInk, Width: 2 * t.Halo}) + ` paint-order="stroke"`
	}
	s.elements = append(s.elements, element{group: style, markup: `<text x="` + decimals(t.At.X, 2) + `" y="` + decimals(t.At.Y, 2) +
		`" textLength="` + decimals(t.Font.Width(t.String), 2) + `" lengthAdjust="spacingAndGlyphs">` + escaped(t.String) + "</text>"})
}
