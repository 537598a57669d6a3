package render

import (
	"errors"
	"fmt"
	"math"

	"weekband/grid/status"
	"weekband/render/canvas"
	"weekband/render/daychart"
	"weekband/render/looks"
	"weekband/render/plane"
	"weekband/render/press"
	"weekband/render/wording"
)

// Handout is a page to print and pin up: a window's map, the weeks of its
// regions, how to read them, how sure they are, and the cautions.
type Handout struct {
	Map     BandMap
	Rows    []daychart.CalendarRow // in the order of the page; too many are thinned evenly
	Guide   []string               // how to read it, a sentence each
	Sure    string                 // how sure it is
	Address string                 // of the page on the web, as a code to scan; "" for none
}

// Shape of a handout: what fits the upright sheets of both Letter and A4
// within their margins.
const (
	handoutWidth  = 900
	handoutHeight = 1200
)

// Handout returns the page of a handout, 900 by 1200 layout pixels. It
// returns an error when the bands of the map do not rise, or the atlas has
// another width than 900.
func (a *Atlas) Handout(h Handout) (*Map, error) {
	if err := h.Map.check(); err != nil {
		return nil, err
	}
	if a.width != handoutWidth {
		return nil, fmt.Errorf("render: a handout on an atlas %g px wide; want %d", a.width, handoutWidth)
	}
	code, err := newCode(h.Address)
	if err != nil {
		return nil, err
	}
	u := a.unit
	margin := math.Round(1.2 * u)
	p := a.blank(handoutWidth, handoutHeight, h.Map.Grey)
	room := plane.Rect{Left: margin, Right: handoutWidth - margin, Top: margin, Bottom: handoutHeight - margin}
	room.Top = p.Header(h.Map.Caption, u, room)

	// From the bottom up, so that the map takes what is left.
	foot := measure(func(q *press.Page, r plane.Rect) float64 { return footer(q, h.Map.Caption, a.projections(), u, r) }, room)
	words := measure(func(q *press.Page, r plane.Rect) float64 { return h.words(q, a.Language, u, r, code) }, room)
	f := h.Map.figure(a.Language)
	key := measure(func(q *press.Page, r plane.Rect) float64 { return f.legend.strip(q, u, r) }, room)
	rows := newRowBlock(h.Rows, a.Language, u, room)
	bottom := room.Bottom - foot - words - float64(1.6*u)
	place := plane.Rect{Left: room.Left, Right: room.Right, Top: room.Top, Bottom: bottom - rows.least() - float64(0.8*u)}
	frame, beside := a.handoutFrame(f, place, key+float64(0.8*u), f.legend.columnWidth(u)+u)
	if frame.Height() < leastMap*room.Width() {
		return nil, errors.New("render: the words of the handout leave no room for its map; shorten title or credits")
	}
	y := a.paint(p, f, frame)
	if beside {
		y = max(y, f.legend.column(p.Page, u, plane.Rect{Left: frame.Right + u, Right: room.Right, Top: frame.Top}))
	} else {
		y = f.legend.strip(p.Page, u, plane.Rect{Left: room.Left, Right: room.Right, Top: y + float64(0.8*u)})
	}
	rows.draw(p.Page, plane.Rect{Left: room.Left, Right: room.Right, Top: y + float64(0.8*u), Bottom: bottom})
	h.words(p.Page, a.Language, u, plane.Rect{Left: room.Left, Right: room.Right, Top: room.Bottom - foot - words - float64(0.8*u)}, code)
	footer(p.Page, h.Map.Caption, a.projections(), u, plane.Rect{Left: room.Left, Right: room.Right, Top: room.Bottom - foot})
	return p, nil
}

// leastMap is the least height of a handout's map, as a share of the page's
// room.
const leastMap = 0.2

// handoutFrame returns the frame in which the map is largest: with its legend
// under it, under high, or beside it, beside wide. Insets that find no place in
// the frame stand below it.
func (a *Atlas) handoutFrame(f figure, room plane.Rect, under, beside float64) (frame plane.Rect, column bool) {
	aspect := a.frameAspect()
	low, narrow := room, room
	low.Bottom -= under
	narrow.Right -= beside
	most := 0.0
	for i, r := range [...]plane.Rect{low, narrow} {
		for range 2 { // the second time with room for insets below
			r.Bottom = math.Round(min(r.Bottom, r.Top+float64(r.Width()*aspect)))
			if r.Height() < leastMap*room.Width() {
				break
			}
			below := a.sceneOf(f, r).bottom - r.Bottom
			r.Bottom -= below
			if shown := min(r.Width(), r.Height()/aspect); shown > most && r.Height() >= leastMap*room.Width() {
				most, frame, column = shown, r, i == 1
			}
			if below == 0 {
				break
			}
		}
	}
	return frame, column
}

// measure returns the height of what draw draws.
func measure(draw func(*press.Page, plane.Rect) float64, room plane.Rect) float64 {
	return draw(&press.Page{}, plane.Rect{Left: room.Left, Right: room.Right})
}

// words writes the reading guide and how sure it is, side by side, and the
// code, and returns the y under them.
func (h Handout) words(p *press.Page, lang *wording.Language, u float64, room plane.Rect, c *code) float64 {
	side := room
	if c != nil {
		side.Right -= c.width(u) + u
	}
	half := (side.Width() - float64(1.4*u)) / 2
	left, right := side, side
	left.Right, right.Left = left.Left+half, right.Right-half
	bottom := max(titled(p, lang.Handout.HowToRead, h.Guide, u, left), titled(p, lang.Handout.HowSure, []string{h.Sure}, u, right))
	if c != nil {
		bottom = max(bottom, c.draw(p, u, plane.Rect{Left: room.Right - c.width(u), Right: room.Right, Top: room.Top}))
	}
	return bottom
}

// titled writes sentences under a title and returns the y under them.
func titled(p *press.Page, title string, sentences []string, u float64, room plane.Rect) float64 {
	y := p.Paragraph(press.FooterText, title, canvas.Text{At: room.TopLeft(), Font: canvas.Font{Face: canvas.Bold, Size: press.SmallSize(u)}, Color: canvas.TextInk}, room.Width())
	for _, s := range sentences {
		y = p.Paragraph(press.FooterText, s, canvas.Text{At: plane.Pixel{X: room.Left, Y: y}, Font: canvas.Font{Face: canvas.Regular, Size: press.SmallSize(u)}, Color: canvas.TextInk}, room.Width())
	}
	return y
}

// rowBlock is the strips of regions in one or two columns.
type rowBlock struct {
	rows    []daychart.CalendarRow
	lang    *wording.Language
	u       float64
	height  float64 // of a row
	head    float64
	columns int
	all     int // rows there were before thinning
}

// MostRows is how many strips of regions a handout holds, in two columns.
const MostRows = 60

func newRowBlock(rows []daychart.CalendarRow, lang *wording.Language, u float64, room plane.Rect) rowBlock {
	b := rowBlock{rows: rows, lang: lang, u: u, height: 1.12 * u, head: 2.6 * u, columns: 1, all: len(rows)}
	if len(rows) > 14 {
		b.columns = 2
	}
	if len(rows) > MostRows {
		b.rows = nil
		for i := range MostRows {
			b.rows = append(b.rows, rows[i*len(rows)/MostRows])
		}
	}
	return b
}

func (b rowBlock) perColumn() int { return (len(b.rows) + b.columns - 1) / b.columns }

// least is the height the block needs.
func (b rowBlock) least() float64 {
	if len(b.rows) == 0 {
		return 0
	}
	return b.head + float64(float64(b.perColumn())*b.height)
}

// draw draws the block, its rows as high as the room lets them be up to a
// half more, and returns the y under it.
func (b rowBlock) draw(p *press.Page, room plane.Rect) float64 {
	if len(b.rows) == 0 {
		return room.Top
	}
	n := b.perColumn()
	height := min(1.5*b.height, (room.Height()-b.head)/float64(n))
	title := b.lang.Handout.EveryRegion
	if b.all > len(b.rows) {
		title = b.lang.Handout.SomeRegions(len(b.rows), b.all)
	}
	y := p.Paragraph(press.LegendText, title, canvas.Text{At: room.TopLeft(), Font: canvas.Font{Face: canvas.Bold, Size: press.SmallSize(b.u)}, Color: canvas.TextInk}, room.Width())
	statusKey(p, b.lang, b.u, room, room.Top)
	gap := float64(1.6 * b.u)
	width := (room.Width() - float64(gap*float64(b.columns-1))) / float64(b.columns)
	for c := range b.columns {
		some := b.rows[min(c*n, len(b.rows)):min((c+1)*n, len(b.rows))]
		column := plane.Rect{Left: room.Left + float64(float64(c)*(width+gap)), Top: y + float64(0.1*b.u)}
		column.Right = column.Left + width
		b.column(p, some, column, height)
	}
	return y + b.head - float64(1.3*b.u) + float64(float64(n)*height)
}

// statusKey explains the looks of strips, at the right of a line.
func statusKey(p *press.Page, lang *wording.Language, u float64, room plane.Rect, top float64) {
	font := canvas.Font{Face: canvas.Regular, Size: max(press.MinText, 0.8*u)}
	x := room.Right
	for _, s := range []status.Status{status.CatchingUp, status.OnTime, status.Ahead} {
		words := lang.Status(s)
		x -= font.Width(words)
		p.Text(press.LegendText, canvas.Text{At: plane.Pixel{X: x, Y: top + font.Ascent()}, String: words, Font: font, Color: canvas.TextInk})
		swatch := float64(1.4 * u)
		x -= swatch + float64(0.3*u)
		p.Fill(plane.RectPath(plane.Rect{Left: x, Right: x + swatch, Top: top + float64(0.2*font.Size), Bottom: top + font.Ascent()}), looks.Statuses[s], u*0.6)
		x -= float64(1.1 * u)
	}
}

// part is what stands after a row's name.
func part(r daychart.CalendarRow) string {
	if r.Part == "" {
		return ""
	}
	return " (" + r.Part + ")"
}

// column draws rows under the names of months.
func (b rowBlock) column(p *press.Page, rows []daychart.CalendarRow, room plane.Rect, height float64) {
	font := canvas.Font{Face: canvas.Regular, Size: max(press.MinText, min(press.SmallSize(b.u), 0.86*height))}
	names := 0.0
	for _, r := range b.rows {
		names = max(names, font.Width(r.Name+part(r)))
	}
	names = min(names, 0.36*room.Width())
	left := room.Left + names + float64(0.6*b.u)
	axis := daychart.AxisAround(b.rows, b.lang, left, room.Right)
	top := axis.Head(p, b.u, room.Top)
	axis.Ticks(p, b.u, top, top+float64(height*float64(len(rows))))
	for i, r := range rows {
		y := top + float64(float64(i)*height)
		base := plane.Pixel{X: room.Left, Y: y + height/2 + font.Middle()}
		p.Text(press.LegendText, canvas.Text{At: base, String: canvas.Shorten(r.Name, font, names-font.Width(part(r))) + part(r), Font: font, Color: canvas.TextInk})
		if r.Calendar == (status.Calendar{}) {
			p.Text(press.LegendText, canvas.Text{At: plane.Pixel{X: left, Y: base.Y}, String: canvas.Shorten(r.Words, font, room.Right-left), Font: canvas.Font{Face: canvas.Italic, Size: font.Size}, Color: canvas.LesserInk})
			continue
		}
		axis.Strip(p, b.u, r.Calendar, y, height)
	}
}
