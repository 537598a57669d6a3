package daychart

import (
	"math"

	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/render/canvas"
	"weekband/render/looks"
	"weekband/render/plane"
	"weekband/render/press"
	"weekband/render/wording"
)

// CalendarRow is the year of one region on a strip of weeks.
type CalendarRow struct {
	Name     string
	Part     string          // stands after the name in brackets, in full; "" for nothing
	Calendar status.Calendar // zero when the region has no week
	Words    string          // what stands in place of a strip without weeks
}

// YearAxis is a stretch of days, a year at most, from left to right in layout
// pixels. Its units are the size of body text in pixels.
type YearAxis struct {
	lang        *wording.Language
	left, right float64
	from, to    season.Day // unwrapped
}

// NewYearAxis returns the axis of a whole year from 1 January.
func NewYearAxis(lang *wording.Language, left, right float64) YearAxis {
	return YearAxis{lang: lang, left: left, right: right, from: 1, to: 1 + season.YearDays}
}

// AxisAround returns the axis for calendars: whole months around all of them, at
// most a year.
func AxisAround(rows []CalendarRow, lang *wording.Language, left, right float64) YearAxis {
	from, to := season.Day(math.Inf(1)), season.Day(math.Inf(-1))
	for _, r := range rows {
		if r.Calendar != (status.Calendar{}) {
			from, to = min(from, r.Calendar.AheadFrom), max(to, r.Calendar.CatchupTo)
		}
	}
	if from > to || to-from > season.YearDays-40 {
		return NewYearAxis(lang, left, right)
	}
	month, _ := from.In().MonthDay()
	begin := from - (from.In() - season.MonthBegin(month))
	month, _ = to.In().MonthDay()
	end := to - (to.In() - season.MonthBegin(month)) + season.Day(season.MonthDays(month))
	return YearAxis{lang: lang, left: left, right: right, from: begin, to: min(end, begin+season.YearDays)}
}

func (a YearAxis) x(d season.Day) float64 {
	return a.left + float64(float64((d-a.from)/(a.to-a.from))*(a.right-a.left))
}

// spans returns where a stretch of days stands, each repeated by whole years so
// that it shows wherever it falls.
func (a YearAxis) spans(from, to season.Day) [][2]float64 {
	var out [][2]float64
	for _, year := range [...]season.Day{-season.YearDays, 0, season.YearDays} {
		lo, hi := max(from+year, a.from), min(to+year, a.to)
		if lo < hi {
			out = append(out, [2]float64{a.x(lo), a.x(hi)})
		}
	}
	return out
}

// months returns the months of the axis, each with its begin and end.
func (a YearAxis) months() []monthSpan {
	return monthsBetween(a.from, a.to)
}

// Head writes the names of the months above the strips and returns the y
// under them.
func (a YearAxis) Head(p *press.Page, u, top float64) float64 {
	font := canvas.Font{Face: canvas.Regular, Size: max(press.MinText, 0.8*u)}
	for _, m := range a.months() {
		x0, x1 := a.x(max(m.begin, a.from)), a.x(min(m.end, a.to))
		name := a.lang.ShortMonth(m.month)
		if font.Width(name) > x1-x0-2 {
			name = a.lang.Initial(m.month)
		}
		if font.Width(name) < x1-x0 {
			p.Text(press.AxisText, canvas.Text{At: plane.Pixel{X: (x0 + x1) / 2, Y: top + font.Ascent()}, Anchor: canvas.Middle, String: name, Font: font, Color: canvas.LesserInk})
		}
	}
	return top + font.Line()
}

// Heights of the parts of a strip as shares of its row: on time stands full
// height, so that strips read without colour.
const (
	stripHigh = 0.78
	stripLow  = 0.46
)

// Strip draws one calendar in a row of a height in pixels: ahead, on time and
// catching up.
func (a YearAxis) Strip(p *press.Page, u float64, c status.Calendar, top, height float64) {
	base := top + height*(1+stripHigh)/2
	p.Stroke(plane.LevelLine(a.left, a.right, base), canvas.Pen{Color: canvas.GuideInk, Width: max(0.6, u*0.05)})
	for _, part := range []struct {
		status   status.Status
		from, to season.Day
		high     float64
	}{
		{status.Ahead, c.AheadFrom, c.OntimeFrom, stripLow},
		{status.OnTime, c.OntimeFrom, c.OntimeTo, stripHigh},
		{status.CatchingUp, c.OntimeTo, c.CatchupTo, stripLow},
	} {
		for _, s := range a.spans(part.from, part.to) {
			p.Fill(plane.RectPath(plane.Rect{Left: s[0], Right: s[1], Top: base - float64(part.high*height), Bottom: base}), looks.Statuses[part.status], u*0.6)
		}
	}
}

// Ticks draws the beginnings of months from top to bottom, behind strips.
func (a YearAxis) Ticks(p *press.Page, u, top, bottom float64) {
	var lines plane.Path
	for _, m := range a.months() {
		if m.begin > a.from {
			lines.Add(plane.Pixel{X: a.x(m.begin), Y: top}, plane.Pixel{X: a.x(m.begin), Y: bottom})
		}
	}
	p.Stroke(&lines, canvas.Pen{Color: canvas.GuideInk, Width: max(0.6, u*0.05)})
}

// WholeYear draws all five statuses of a year into a room. On time stands full height and
// past and resting lowest, so that the strip reads without colour.
func (a YearAxis) WholeYear(p *press.Page, u float64, c status.Calendar, room plane.Rect) {
	pause := (season.YearDays - (c.CatchupTo - c.AheadFrom)) / 2 // as Calendar.At parts it
	for _, part := range [...]struct {
		status   status.Status
		from, to season.Day
		high     float64
	}{
		{status.Resting, c.AheadFrom - pause, c.AheadFrom, 0.3},
		{status.Ahead, c.AheadFrom, c.OntimeFrom, 0.65},
		{status.OnTime, c.OntimeFrom, c.OntimeTo, 1},
		{status.CatchingUp, c.OntimeTo, c.CatchupTo, 0.65},
		{status.Past, c.CatchupTo, c.CatchupTo + pause, 0.3},
	} {
		for _, s := range a.spans(part.from, part.to) {
			p.Fill(plane.RectPath(plane.Rect{Left: s[0], Right: s[1], Top: room.Bottom - float64(part.high*room.Height()), Bottom: room.Bottom}), looks.Statuses[part.status], u)
		}
	}
	p.Stroke(plane.LevelLine(room.Left, room.Right, room.Bottom), canvas.Pen{Color: canvas.FineInk, Width: 1})
	var ticks plane.Path
	for _, m := range a.months() {
		if m.begin > a.from {
			ticks.Add(plane.Pixel{X: a.x(m.begin), Y: room.Bottom}, plane.Pixel{X: a.x(m.begin), Y: room.Bottom + 6})
		}
	}
	p.Stroke(&ticks, canvas.Pen{Color: canvas.FineInk, Width: 1})
}

// Names writes the names of all months, each in the middle of its own, from
// the top down.
func (a YearAxis) Names(p *press.Page, font canvas.Font, top float64) {
	for _, m := range a.months() {
		x := (a.x(m.begin) + a.x(m.end)) / 2
		p.Text(press.AxisText, canvas.Text{At: plane.Pixel{X: x, Y: top + font.Ascent()}, Anchor: canvas.Middle, String: a.lang.ShortMonth(m.month), Font: font, Color: canvas.LesserInk})
	}
}
