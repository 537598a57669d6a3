package render

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"weekband/grid/status"
	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
	"weekband/render/wording"
)

// Card is an image to go with a link to a page: of one region, with its weeks,
// or of the edition.
type Card struct {
	Title    string       // the region's name, or the edition's
	Subtitle string       // such as "Spring soil warm-up, Merrow Vale. Edition 2027."; of the edition what its map shows
	Caution  string       // one line, at most two
	Region   *Region      // to mark on the map; nil for the edition
	Windows  []CardWindow // one to three of a region; none of the edition
	Map      *BandMap     // shades the edition's map; nil leaves the land plain
}

// CardWindow is what a card says of one window.
type CardWindow struct {
	Title    string
	Calendar status.Calendar // zero when the region has no week
	Words    string          // why, in that case
}

// Size of a card in layout pixels: what links are shown with in most places,
// 1.91 to 1 (common practice, no source).
const (
	CardWidth  = 1200
	CardHeight = 630
)

const (
	cardMargin = 56
	cardMost   = 3   // windows
	cardUnit   = 18  // px, of patterns, which must outlast a card shown at a third of its size
	cardFoot   = 60  // room under the rule, for the caution
	cardColors = 128 // of a region's card, which has few; a tenth lighter than with the usual 256
)

// cardRows is the height of a window's row by how many there are.
var cardRows = [cardMost + 1]float64{0, 226, 134, 104}

// Card returns the page of a card, CardWidth by CardHeight layout pixels, for
// an atlas of any width. Cards of regions with as many windows share their map.
// It returns an error when a region has no window or more than three, when a
// card of the edition has any, when the caution takes more than two lines, or
// when the bands of its map do not rise.
func (a *Atlas) Card(c Card) (*Map, error) {
	switch n := len(c.Windows); {
	case c.Region != nil && (n == 0 || n > cardMost):
		return nil, fmt.Errorf("render: a card of %s with %d windows; want one to %d", c.Title, n, cardMost)
	case c.Region == nil && n > 0:
		return nil, fmt.Errorf("render: a card of the edition %s with %d windows; want none", c.Title, n)
	}
	p := cardPage{Map: a.blank(CardWidth, CardHeight, false), lang: a.Language}
	room := plane.Rect{Left: cardMargin, Right: CardWidth - cardMargin, Top: cardMargin - 6, Bottom: CardHeight - cardFoot}
	if err := p.caution(c.Caution, room); err != nil {
		return nil, err
	}
	room.Bottom -= 12
	if c.Region == nil {
		if err := a.editionCard(p, c, room); err != nil {
			return nil, err
		}
		return p.Map, nil
	}
	a.regionCard(p, c, room)
	return p.Map, nil
}

// cardPage is a card in the making.
type cardPage struct {
	*Map
	lang *wording.Language
}

// regionCard draws the card of a region: its name, where it lies, and its
// weeks.
func (a *Atlas) regionCard(p cardPage, c Card, room plane.Rect) {
	p.FewColors(cardColors)
	const keyHigh, gap = 24, 10
	if slices.ContainsFunc(c.Windows, func(w CardWindow) bool { return w.Calendar != (status.Calendar{}) }) {
		p.cardKey(plane.Rect{Left: room.Left, Right: room.Right, Top: room.Bottom - keyHigh, Bottom: room.Bottom})
	}
	rows := plane.Rect{Left: room.Left, Right: room.Right, Bottom: room.Bottom - keyHigh - gap}
	rows.Top = rows.Bottom - float64(float64(len(c.Windows))*cardRows[len(c.Windows)])
	head := plane.Rect{Left: room.Left, Right: room.Right, Top: room.Top, Bottom: rows.Top - 14}
	frame := a.cardFrame(head, 0.38*head.Width())
	a.cardLand(p, c, frame)
	head.Right = frame.Left - 36
	p.cardTitle(c, 70, head)
	p.cardWindows(c.Windows, rows)
}

// caution writes the caution under a rule, on one line or, smaller, on two. One
// that does not fit is an error: none is cut short.
func (p cardPage) caution(text string, room plane.Rect) error {
	p.Stroke(plane.LevelLine(room.Left, room.Right, room.Bottom), canvas.Pen{Color: canvas.GuideInk, Width: 2})
	for _, try := range [...]struct{ most, least, high float64 }{{18, 16, 24}, {16, 14, 40}} {
		font, lines := canvas.FitLines(text, canvas.Bold, try.most, try.least, plane.Rect{Right: room.Width(), Bottom: try.high})
		if strings.Join(strings.Fields(strings.Join(lines, " ")), " ") == strings.Join(strings.Fields(text), " ") {
			p.Lines(press.FooterText, lines, canvas.Text{At: plane.Pixel{X: room.Left, Y: room.Bottom + 10}, Font: font, Color: canvas.LesserInk})
			return nil
		}
	}
	return fmt.Errorf("render: the caution %q takes more than two lines of a card; give a shorter one", text)
}

// cardTitle writes title and subtitle into a room.
func (p cardPage) cardTitle(c Card, size float64, room plane.Rect) {
	under, second := canvas.FitLines(c.Subtitle, canvas.Regular, 27, 22, plane.Rect{Right: room.Width(), Bottom: 40})
	if len(canvas.Wrap(c.Subtitle, under, room.Width())) > 1 {
		under, second = canvas.FitLines(c.Subtitle, canvas.Regular, 27, 20, plane.Rect{Right: room.Width(), Bottom: 72})
	}
	if n := len(second); c.Region == nil && n > 0 && strings.HasSuffix(second[n-1], "…") { // the edition's has more to say, and more room
		under, second = canvas.FitLines(c.Subtitle, canvas.Regular, 27, 20, plane.Rect{Right: room.Width(), Bottom: 136})
	}
	title := room
	title.Bottom -= 10 + float64(float64(len(second))*under.Line())
	font, first := canvas.FitLines(c.Title, canvas.Heading, size, 34, title)
	y := p.Lines(press.TitleText, first, canvas.Text{At: room.TopLeft(), Font: font, Color: canvas.TextInk})
	p.Lines(press.TitleText, second, canvas.Text{At: plane.Pixel{X: room.Left, Y: y + 10}, Font: under, Color: canvas.LesserInk})
}

// cardFrame returns the frame of the map at the right of a room, at most wide
// pixels wide.
func (a *Atlas) cardFrame(room plane.Rect, wide float64) plane.Rect {
	aspect := a.frameAspect()
	frame := plane.Rect{Right: room.Right, Top: room.Top}
	width := math.Round(min(wide, room.Height()/aspect))
	least := 0.4 * width
	for {
		frame.Left, frame.Bottom = room.Right-width, room.Top+math.Round(width*aspect)
		over := a.cardScene(frame).bottom - room.Bottom
		if over <= 0 || width <= least {
			return frame
		}
		width = math.Round(max(least, width-max(over/aspect, 1))) // to make room for insets below
	}
}

func (a *Atlas) cardScene(frame plane.Rect) *scene {
	return a.scene(sceneKey{frame: frame, unit: locatorUnit, plain: true})
}
