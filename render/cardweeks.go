package render

import (
	"weekband/grid/status"
	"weekband/render/carto"
)

// cardKey lists the statuses with their looks.
func (p cardPage) cardKey(room Rect) {
	widths := func(font Font) (sum float64) {
		for _, s := range status.All {
			sum += 34 + 8 + font.Width(p.lang.Status(s))
		}
		return sum
	}
	font := Font{Face: Regular, Size: 19}
	for font.Size > minText && widths(font) > room.Width()-60 {
		font.Size--
	}
	gap := min(44, (room.Width()-widths(font))/float64(len(status.All)-1))
	x := room.Left
	for _, s := range status.All {
		swatch := Rect{Left: x, Right: x + 34, Top: room.Top + 3, Bottom: room.Bottom - 3}
		p.swatch(swatch, statusLooks[s], cardUnit)
		words := p.lang.Status(s)
		p.text(LegendText, Text{At: carto.Pixel{X: swatch.Right + 8, Y: room.Center().Y + float64(0.35*font.Size)}, String: words, Font: font, Color: textColor})
		x = swatch.Right + 8 + font.Width(words) + gap
	}
}

// onTime returns the words of a window's days on time.
func (p cardPage) onTime(w CardWindow) (label, dates string) {
	return p.lang.Sentences.Region.OnTime, p.lang.Span(w.Calendar.OntimeFrom, w.Calendar.OntimeTo)
}

// onTimeFont is that of the label before the dates.
var onTimeFont = Font{Face: Regular, Size: 27}

const titleHigh = 34 // px, of a window's title

// dateFont returns the font that the dates of all windows fit in, beside their
// label in a room.
func (p cardPage) dateFont(windows []CardWindow, room Rect) Font {
	f := Font{Face: Bold, Size: min(76, 0.86*(room.Height()-titleHigh))}
	for _, w := range windows {
		label, dates := p.onTime(w)
		for f.Size > 24 && onTimeFont.Width(label)+14+f.Width(dates) > room.Width() {
			f.Size--
		}
	}
	return f
}

// cardWindows writes a row for each window: its title, its dates on time, and
// its year.
func (p cardPage) cardWindows(windows []CardWindow, room Rect) {
	n := len(windows)
	height := room.Height() / float64(n)
	words, strips := room, room
	if n == 1 {
		words.Bottom = room.Top + float64(0.53*height)
		strips.Top = words.Bottom
	} else {
		words.Right = room.Left + float64(0.42*room.Width())
		strips.Left = words.Right + 24
	}
	const months = 24 // under the strips
	words.Bottom = min(words.Bottom, words.Top+height)
	dates := p.dateFont(windows, words)
	axis := newYearAxis(p.lang, strips.Left, strips.Right)
	for i, w := range windows {
		top := float64(float64(i) * height)
		row := Rect{Left: words.Left, Right: words.Right, Top: words.Top + top, Bottom: words.Bottom + top}
		p.cardWords(w, dates, row)
		if w.Calendar != (status.Calendar{}) {
			strip := Rect{Left: strips.Left, Right: strips.Right, Top: strips.Top + top + 8, Bottom: strips.Top + top + min(strips.Height(), height) - months - 4}
			strip.Top = max(strip.Top, strip.Bottom-72)
			axis.wholeYear(p.Page, cardUnit, w.Calendar, strip)
			axis.names(p.Page, Font{Face: Regular, Size: 17}, strip.Bottom+3)
		}
	}
}

// cardWords writes what a row says: the window and its dates, or why there are
// none.
func (p cardPage) cardWords(w CardWindow, font Font, room Rect) {
	head, title := fittingLines(w.Title, Bold, 25, 18, Rect{Right: room.Width(), Bottom: titleHigh})
	y := p.lines(LegendText, title, Text{At: room.corner(), Font: head, Color: lessColor})
	if w.Calendar == (status.Calendar{}) {
		words, why := fittingLines(w.Words, Italic, 28, 18, Rect{Right: room.Width(), Bottom: room.Bottom - y})
		p.lines(LegendText, why, Text{At: carto.Pixel{X: room.Left, Y: y + 4}, Font: words, Color: textColor})
		return
	}
	label, dates := p.onTime(w)
	at := carto.Pixel{X: room.Left, Y: y + font.Ascent()}
	p.text(LegendText, Text{At: at, String: label, Font: onTimeFont, Color: textColor})
	at.X += onTimeFont.Width(label) + 14
	p.text(LegendText, Text{At: at, String: dates, Font: font, Color: statusLooks[status.OnTime].tone})
}
