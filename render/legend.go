package render

import (
	"math"
	"strings"

	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
	"weekband/render/wording"
)

// legend explains the looks of a map: classes in order, drawn as one strip
// with a bar for each one's share of the area, and other ground beside it.
type legend struct {
	lang    *wording.Language
	heading string
	entries []entry
	others  []entry
}

// entry is one look and its words.
type entry struct {
	look  canvas.Look
	label string
	share float64 // of the area, 0 to 1
}

// shares reports whether any share is known, and the largest of the classes.
func (l legend) shares() (largest float64, known bool) {
	for _, e := range l.entries {
		largest = max(largest, e.share)
	}
	for _, e := range l.others {
		known = known || e.share > 0
	}
	return largest, known || largest > 0
}

// words returns the heading.
func (l legend) words() string {
	if _, known := l.shares(); known && l.heading != "" {
		return l.lang.Legend.WithShare(l.heading)
	}
	return l.heading
}

// othersWidth is the width of the list of other ground, 0 when it is empty.
func (l legend) othersWidth(u float64) float64 {
	w := 0.0
	for _, e := range l.others {
		w = max(w, press.SampleFont(u).Width(l.wordsOf(e)))
	}
	if w > 0 {
		w += press.SampleWidth(u) + float64(0.5*u) + 1 // a pixel for rounding
	}
	return math.Min(w, 20*u)
}

// wordsOf returns label and share of an entry in a list.
func (l legend) wordsOf(e entry) string {
	if s := l.lang.Percent(e.share); s != "" {
		return l.lang.Legend.Labelled(e.label, s)
	}
	return e.label
}

// strip lays the legend out under the map, from the room's top, and returns
// the y under it.
func (l legend) strip(p *press.Page, u float64, room plane.Rect) float64 {
	if len(l.entries)+len(l.others) == 0 {
		return room.Top
	}
	top := room.Top
	if words := l.words(); words != "" {
		top = p.Paragraph(press.LegendText, words, canvas.Text{At: room.TopLeft(), Font: canvas.Font{Face: canvas.Bold, Size: press.SmallSize(u)}, Color: canvas.TextInk}, room.Width()) + float64(0.2*u)
	}
	bars, side := room, room
	bars.Top, side.Top = top, top
	others := l.othersWidth(u)
	width := l.barWidth(u, room.Width()-others-float64(1.5*u))
	below := others > 0 && width < 4.1*u
	if below || others == 0 {
		width = l.barWidth(u, room.Width())
	}
	if l.crowded(u, width) {
		bars.Right = min(room.Right, room.Left+l.columnWidth(u))
		side.Top = l.rows(p, u, bars) + float64(0.5*u)
		bottom := l.list(p, u, side)
		p.Layout.Legend = plane.Rect{Left: room.Left, Top: room.Top, Right: room.Right, Bottom: bottom}
		return bottom
	}
	bottom := l.bars(p, u, width, bars)
	side.Left = room.Left + float64(width*float64(len(l.entries))) + float64(1.5*u)
	if below || len(l.entries) == 0 {
		side.Left, side.Top = room.Left, bottom+float64(0.4*u)
	}
	bottom = max(bottom, l.list(p, u, side))
	p.Layout.Legend = plane.Rect{Left: room.Left, Top: room.Top, Right: room.Right, Bottom: bottom}
	return bottom
}

// barWidth is the width of one class when all share the given room.
func (l legend) barWidth(u, room float64) float64 {
	return math.Min(7.5*u, room/float64(max(1, len(l.entries))))
}

// crowded reports whether a word of a label is wider than the column of its
// class, so that the classes had better stand under each other.
func (l legend) crowded(u, width float64) bool {
	font := press.SampleFont(u)
	for _, e := range l.entries {
		for _, word := range strings.Split(strings.ReplaceAll(e.label, "–", "– "), " ") {
			if font.Width(word) > width-float64(0.25*u) {
				return true
			}
		}
	}
	return false
}

// bars draws the classes as a strip with a bar standing on each, dates below,
// and returns the y under them.
func (l legend) bars(p *press.Page, u, width float64, room plane.Rect) float64 {
	if len(l.entries) == 0 {
		return room.Top
	}
	font := press.SampleFont(u)
	largest, known := l.shares()
	height, y := 0.0, room.Top
	if known && largest > 0 {
		height = float64(3 * u)
		y += font.Line() + height
	}
	bottom := y + float64(1.3*u) + float64(0.3*u)
	end := bottom
	for i, e := range l.entries {
		left := room.Left + float64(width*float64(i))
		cell := plane.Rect{Left: left, Right: left + width, Top: y, Bottom: y + float64(1.3*u)}
		if height > 0 && e.share > 0 {
			bar := plane.Rect{Left: left + float64(width*0.2), Right: left + float64(width*0.8), Top: y - height*e.share/largest, Bottom: y}
			p.Swatch(bar, e.look, u)
			if s := l.lang.Percent(e.share); s != "" {
				p.Text(press.LegendText, canvas.Text{At: plane.Pixel{X: left + width/2, Y: bar.Top - float64(0.3*u)}, Anchor: canvas.Middle, String: s, Font: font, Color: canvas.LesserInk})
			}
		}
		p.Swatch(cell, e.look, u)
		label := e.label
		if font.Width(label) > width-float64(0.25*u) { // rather "Mar 26–" over "Apr 1" than "Mar 26–Apr" over "1"
			label = strings.Replace(label, "–", "–\n", 1)
		}
		end = max(end, centred(p, label, font, plane.Rect{Left: left, Right: left + width, Top: bottom}, u))
	}
	return end
}

// centred writes a wrapped label in the middle of a column and returns the y
// under it.
func centred(p *press.Page, label string, font canvas.Font, room plane.Rect, u float64) float64 {
	return p.Paragraph(press.LegendText, label, canvas.Text{
		At: plane.Pixel{X: room.Center().X, Y: room.Top}, Anchor: canvas.Middle, Font: font, Color: canvas.TextInk,
	}, room.Width()-float64(0.25*u))
}

// list writes the entries for other ground under each other and returns the y
// under them.
func (l legend) list(p *press.Page, u float64, room plane.Rect) float64 {
	y := room.Top
	font := press.SampleFont(u)
	for _, e := range l.others {
		sample := plane.Rect{Left: room.Left, Right: room.Left + press.SampleWidth(u), Top: y, Bottom: y + float64(1.25*u)}
		p.Swatch(sample, e.look, u)
		text := canvas.Text{At: plane.Pixel{X: sample.Right + float64(0.5*u), Y: y + float64(0.62*u) - float64(font.Size*0.55)}, Font: font, Color: canvas.TextInk}
		y = max(sample.Bottom, p.Paragraph(press.LegendText, l.wordsOf(e), text, room.Right-text.At.X)) + float64(0.35*u)
	}
	return y
}

// columnWidth is the width the legend takes beside the map.
func (l legend) columnWidth(u float64) float64 {
	font := press.SampleFont(u)
	w := l.othersWidth(u)
	for _, e := range l.entries {
		w = max(w, press.SampleWidth(u)+float64(0.5*u)+font.Width(e.label)+float64(barRoom*u))
	}
	return math.Min(w, 20*u)
}

// barRoom is the room for a share's bar beside its date, in units.
const barRoom = 6.5

// column lays the legend out beside the map and returns the y under it.
func (l legend) column(p *press.Page, u float64, room plane.Rect) float64 {
	y := p.Paragraph(press.LegendText, l.words(), canvas.Text{At: room.TopLeft(), Font: canvas.Font{Face: canvas.Bold, Size: press.SmallSize(u)}, Color: canvas.TextInk}, room.Width()) + float64(0.4*u)
	y = l.rows(p, u, plane.Rect{Left: room.Left, Top: y, Right: room.Right})
	bottom := l.list(p, u, plane.Rect{Left: room.Left, Top: y + float64(0.7*u), Right: room.Right})
	p.Layout.Legend = plane.Rect{Left: room.Left, Top: room.Top, Right: room.Right, Bottom: bottom}
	return bottom
}

// rows draws the classes under each other, each with its label and a bar for
// its share, and returns the y under them.
func (l legend) rows(p *press.Page, u float64, room plane.Rect) float64 {
	y := room.Top
	font := press.SampleFont(u)
	largest, known := l.shares()
	height := float64(1.55 * u)
	for _, e := range l.entries {
		cell := plane.Rect{Left: room.Left, Right: room.Left + press.SampleWidth(u), Top: y, Bottom: y + height}
		p.Swatch(cell, e.look, u)
		base := y + height/2 + font.Middle()
		p.Text(press.LegendText, canvas.Text{At: plane.Pixel{X: cell.Right + float64(0.5*u), Y: base}, String: e.label, Font: font, Color: canvas.TextInk})
		if s := l.lang.Percent(e.share); known && largest > 0 && s != "" {
			left := room.Right - float64((barRoom-0.6)*u)
			long := (barRoom - 0.6 - 3) * u * e.share / largest
			p.Swatch(plane.Rect{Left: left, Right: left + long, Top: y + float64(height*0.22), Bottom: y + float64(height*0.78)}, e.look, u)
			p.Text(press.LegendText, canvas.Text{At: plane.Pixel{X: left + long + float64(0.35*u), Y: base}, String: s, Font: font, Color: canvas.LesserInk})
		}
		y += height
	}
	return y
}
