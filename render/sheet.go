package render

import (
	"math"

	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
	"weekband/render/wording"
)

// sheetType is how much larger text on a sheet is than on a map of its width,
// since a sheet is printed upright: 1,200 layout pixels on 7.5 inches, of which
// 7 points are 15.6.
const sheetType = 1.2

// Sheet returns all frames of a series on one page, small, in reading order
// from left to right and top to bottom, with one legend. They keep the extent
// and look of the single frames but carry no names. The first frame says whether
// the page is grey. No frames give a page with only a legend.
func (a *Atlas) Sheet(caption press.Caption, frames []StatusMap) *press.Page {
	u := a.unit * sheetType
	margin := math.Round(1.5 * a.unit)
	p := a.blank(a.width, 0, len(frames) > 0 && frames[0].Grey).Page
	room := plane.Rect{Left: margin, Right: a.width - margin, Top: margin}
	room.Top = p.Header(caption, u, room)
	p.EndHead(room.Top, u)
	key := sheetLegend(frames, a.Language)
	y := a.tiles(p, frames, room)
	p.Layout.Frame = plane.Rect{Left: room.Left, Top: room.Top, Right: room.Right, Bottom: y}
	y = key.strip(p, u, plane.Rect{Left: margin, Top: y + float64(0.6*u), Right: a.width - margin}) + float64(0.7*u)
	y = footer(p, a.withoutInsets(caption), a.Language.Map.Projection(a.Projection), u, plane.Rect{Left: margin, Top: y, Right: a.width - margin})
	p.Layout.Height = math.Ceil(y + float64(margin*0.7))
	return p
}

// tiles draws the frames in rows and returns the y under them.
func (a *Atlas) tiles(p *press.Page, frames []StatusMap, room plane.Rect) float64 {
	u := a.unit * sheetType
	aspect := a.frameAspect()
	gap := math.Round(0.7 * u)
	font := canvas.Font{Face: canvas.Bold, Size: u}
	columns := columnsFor(len(frames), room.Width(), gap, aspect, font, a.Language)
	width := math.Floor((room.Width()+gap)/float64(columns)) - gap
	height := math.Round(width * aspect)
	line := math.Ceil(font.Line()) // so that frames are apart by whole pixels
	step := line + height + gap
	for i, m := range frames {
		left := room.Left + float64(float64(i%columns)*(width+gap))
		top := room.Top + float64(float64(i/columns)*step)
		p.Text(press.WeekLabel, canvas.Text{At: plane.Pixel{X: left, Y: top + font.Ascent()}, String: m.Week, Font: font, Color: canvas.TextInk})
		tile(p, a.scene(sceneKey{frame: plane.Rect{Right: width, Bottom: height}, unit: a.unit * 0.6}), m.figure(a.Language), plane.Pixel{X: left, Y: top + line})
	}
	rows := (len(frames) + columns - 1) / columns
	return room.Top + float64(float64(rows)*step)
}

// tile draws a map without names whose scene stands at the page's corner at
// another place.
func tile(p *press.Page, s *scene, f figure, at plane.Pixel) {
	p.Shifted(at, func() {
		drawGround(p, s, f)
		drawLines(p, s)
	})
}

// pageShape is the height over the width that the frames of a sheet may take,
// so that with its words it fits an upright page of letter paper with margins
// of half an inch, 7.5 by 10 inches.
const pageShape = 1.02

// columnsFor returns how many frames stand in a row: the fewest with which
// they all fit an upright page, none narrower than the longest week in font.
// aspect is the height of a frame over its width. Many frames of tall ground
// do not fit: they get the most columns.
func columnsFor(frames int, width, gap, aspect float64, font canvas.Font, lang *wording.Language) int {
	most := max(1, int((width+gap)/(widestWeek(font, lang)+gap)))
	for c := 1; c < most; c++ {
		tile := (width+gap)/float64(c) - gap
		rows := float64((frames + c - 1) / c)
		if rows*(float64(tile*aspect)+math.Ceil(font.Line())+gap) <= width*pageShape {
			return c
		}
	}
	return most
}

// sheetLegend is the legend of all frames: the statuses and all ground without
// a week, without shares, which differ from week to week.
func sheetLegend(frames []StatusMap, lang *wording.Language) legend {
	key := statusLegend(lang)
	seen := map[string]bool{}
	for _, m := range frames {
		for _, e := range m.figure(lang).legend.others {
			if e.share = 0; !seen[e.label] {
				seen[e.label] = true
				key.others = append(key.others, e)
			}
		}
	}
	return key
}
