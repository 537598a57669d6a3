package render

import (
	"weekband/grid/status"
	"weekband/render/canvas"
	"weekband/render/daychart"
	"weekband/render/looks"
	"weekband/render/plane"
	"weekband/render/press"
)

// cardKey lists the statuses with their looks.
func (p cardPage) cardKey(room plane.Rect) {
	widths := func(font canvas.Font) (sum float64) {
		for _, s := range status.All {
			sum += 34 + 8 + font.Width(p.lang.Status(s))
		}
		return sum
	}
	font := canvas.Font{Face: canvas.Regular, Size: 19}
	for font.Size > press.MinText && widths(font) > room.Width()-60 {
		font.Size--
	}
	gap := min(44, (room.Width()-widths(font))/float64(len(status.All)-1))
	x := room.Left
	for _, s := range status.All {
		swatch := plane.Rect{Left: x, Right: x + 34, Top: room.Top + 3, Bottom: room.Bottom - 3}
		p.Swatch(swatch, looks.Statuses[s], cardUnit)
		words := p.lang.Status(s)
		p.Text(press.LegendText, canvas.Text{At: plane.Pixel{X: swatch.Right + 8, Y: room.Center().Y + float64(0.35*font.Size)}, String: words, Font: font, Color: canvas.TextInk})
		x = swatch.Right + 8 + font.Width(words) + gap
	}
}

// onTime returns the words of a window's days on time.
func (p cardPage) onTime(w CardWindow) (label, dates string) {
	return p.lang.Sentences.Region.OnTime, p.lang.Span(w.Calendar.OntimeFrom, w.Calendar.OntimeTo)
}

// onTimeFont is that of the label before the dates.
var onTimeFont = canvas.Font{Face: canvas.Regular, Size: 27}

const titleHigh = 34 // px, of a window's title

// dateFont returns the font that the dates of all windows fit in, beside their
// label in a room.
func (p cardPage) dateFont(windows []CardWindow, room plane.Rect) canvas.Font {
	f := canvas.Font{Face: canvas.Bold, Size: min(76, 0.86*(room.Height()-titleHigh))}
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
func (p cardPage) cardWindows(windows []CardWindow, room plane.Rect) {
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
	axis := daychart.NewYearAxis(p.lang, strips.Left, strips.Right)
	for i, w := range windows {
		top := float64(float64(i) * height)
		row := plane.Rect{Left: words.Left, Right: words.Right, Top: words.Top + top, Bottom: words.Bottom + top}
		p.cardWords(w, dates, row)
		if w.Calendar != (status.Calendar{}) {
			strip := plane.Rect{Left: strips.Left, Right: strips.Right, Top: strips.Top + top + 8, Bottom: strips.Top + top + min(strips.Height(), height) - months - 4}
			strip.Top = max(strip.Top, strip.Bottom-72)
			axis.WholeYear(p.Page, cardUnit, w.Calendar, strip)
			axis.Names(p.Page, canvas.Font{Face: canvas.Regular, Size: 17}, strip.Bottom+3)
		}
	}
}

// cardWords writes what a row says: the window and its dates, or why there are
// none.
func (p cardPage) cardWords(w CardWindow, font canvas.Font, room plane.Rect) {
	head, title := canvas.FitLines(w.Title, canvas.Bold, 25, 18, plane.Rect{Right: room.Width(), Bottom: titleHigh})
	y := p.Lines(press.LegendText, title, canvas.Text{At: room.TopLeft(), Font: head, Color: canvas.LesserInk})
	if w.Calendar == (status.Calendar{}) {
		words, why := canvas.FitLines(w.Words, canvas.Italic, 28, 18, plane.Rect{Right: room.Width(), Bottom: room.Bottom - y})
		p.Lines(press.LegendText, why, canvas.Text{At: plane.Pixel{X: room.Left, Y: y + 4}, Font: words, Color: canvas.TextInk})
		return
	}
	label, dates := p.onTime(w)
	at := plane.Pixel{X: room.Left, Y: y + font.Ascent()}
	p.Text(press.LegendText, canvas.Text{At: at, String: label, Font: onTimeFont, Color: canvas.TextInk})
	at.X += onTimeFont.Width(label) + 14
	p.Text(press.LegendText, canvas.Text{At: at, String: dates, Font: font, Color: looks.Statuses[status.OnTime].Tone})
}
