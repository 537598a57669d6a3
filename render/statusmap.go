package render

import (
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/render/canvas"
	"weekband/render/looks"
	"weekband/render/plane"
	"weekband/render/wording"
)

// Status returns the page of one frame of a series. All frames of an atlas
// with the same caption stand alike.
func (a *Atlas) Status(m StatusMap) *Map { return a.compose(m.figure(a.Language)) }

func (m StatusMap) figure(lang *wording.Language) figure {
	f := figure{caption: m.Caption, week: m.Week, grey: m.Grey, legend: statusLegend(lang)}
	for _, s := range m.Areas {
		f.areas = append(f.areas, area{shape: s.Shape, look: looks.Statuses[s.Status]})
		f.legend.entries[s.Status].share = s.Share
	}
	f.undated(m.Undated)
	return f
}

// statusLegend lists all statuses, whether or not they occur, so that every
// frame of a series has the same legend.
func statusLegend(lang *wording.Language) legend {
	l := legend{lang: lang, heading: lang.Legend.WeekGoodFor}
	for _, s := range status.All {
		l.entries = append(l.entries, entry{look: looks.Statuses[s], label: lang.Status(s)})
	}
	return l
}

// weekFont is how the week of a frame is written.
func weekFont(unit float64) canvas.Font { return canvas.Font{Face: canvas.Heading, Size: 2.2 * unit} }

// widestWeek returns the width of the longest dates of a week.
func widestWeek(font canvas.Font, lang *wording.Language) float64 {
	width := 0.0
	for w := season.Week(1); w <= season.Weeks; w++ {
		width = max(width, font.Width(lang.Week(w)))
	}
	return width
}

// weekText sets the week in the corner kept for it, smaller when its label is
// longer than any dates.
func (s *scene) weekText(week string, font canvas.Font) canvas.Text {
	box := s.emptiest
	base := box.Top + font.Ascent()
	if w := font.Width(week); w > box.Width() {
		font.Size *= box.Width() / w
	}
	t := canvas.Text{At: plane.Pixel{X: box.Left, Y: base}, String: week, Font: font, Color: canvas.TextInk, Halo: s.unit * 0.2}
	if box.Center().X > s.frame.Center().X {
		t.At.X, t.Anchor = box.Right, canvas.End
	}
	return t
}
