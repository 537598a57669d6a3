package press

// PaperSize is the sheet a page is printed on. Whether it stands upright or
// lies, the shape of the page decides.
type PaperSize uint8

const (
	Letter PaperSize = iota // 8.5 × 11 in
	A4                      // 210 × 297 mm, ISO 216
)

// String returns the name of the size, "Letter" or "A4".
func (s PaperSize) String() string { return [...]string{"Letter", "A4"}[s] }

const (
	pointsPerInch = 72
	mmPerInch     = 25.4
	paperMarginMM = 12 // what common printers leave white is less than 10 mm (common practice, no source)
)

// upright returns width and height of the sheet in points of 1/72 in.
func (s PaperSize) upright() (width, height float64) {
	if s == A4 {
		return 210 * pointsPerInch / mmPerInch, 297 * pointsPerInch / mmPerInch
	}
	return 8.5 * pointsPerInch, 11 * pointsPerInch
}

// sheet is a page laid on paper, in points from the top left corner.
type sheet struct {
	lying         bool
	width, height float64
	scale         float64 // points per layout pixel
	left, top     float64 // of the page
}

// lay returns the page on the paper, turned the way it comes out larger,
// inside the margins, at the top and in the middle across.
func (s PaperSize) lay(l Layout) sheet {
	const margin = paperMarginMM * pointsPerInch / mmPerInch
	width, height := s.upright()
	fit := func(width, height float64) sheet {
		scale := min((width-2*margin)/l.Width, (height-2*margin)/l.Height)
		return sheet{width: width, height: height, scale: scale, left: (width - float64(scale*l.Width)) / 2, top: margin}
	}
	standing, lying := fit(width, height), fit(height, width)
	if lying.scale > standing.scale {
		lying.lying = true
		return lying
	}
	return standing
}

// Laid returns where a page comes out on the paper: points of 1/72 in per
// layout pixel, and its top left corner in points from that of the sheet.
func (s PaperSize) Laid(l Layout) (scale, left, top float64) {
	sheet := s.lay(l)
	return sheet.scale, sheet.left, sheet.top
}
