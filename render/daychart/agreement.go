package daychart

import (
	"errors"
	"fmt"
	"math"

	"weekband/grid/season"
	"weekband/render/plane"
	"weekband/render/press"
	"weekband/render/wording"
)

// Agreement is a chart that holds a map against thermometers: one dot a
// place, across by the map's typical day and up by the day measured.
type Agreement struct {
	press.Caption
	Points   []AgreementPoint
	Grey     bool              // for copiers: greys instead of colours
	Language *wording.Language // English when nil
}

// AgreementPoint is one place with a thermometer. Its days are unwrapped and
// so are those of all points of a chart among each other: when some fall in
// late December, early January is day 370, not 5.
type AgreementPoint struct {
	Name        string     // empty for a dot that is never named
	Typical     season.Day // the map's
	Early, Late season.Day // the map's early and late year, 10 % and 90 %; both zero when unknown
	Measured    season.Day // median of the thermometer's years
	Low, High   season.Day // its earliest and latest year; Measured when there is one
	Years       int        // measured
	Doubtful    bool       // the map itself is less sure there: flat ground, or far from stations
}

// departure returns by how many days the thermometer is later than the map.
func (p AgreementPoint) departure() float64 { return float64(p.Measured - p.Typical) }

// unusual reports whether the median lies outside the map's early and late
// year.
func (p AgreementPoint) unusual() bool {
	return (p.Early != 0 || p.Late != 0) && (p.Measured < p.Early || p.Measured > p.Late)
}

// Page returns the chart on a page width layout pixels wide. Layout.Dropped
// lists the names that were not written: those beyond the first dozen by
// departure, and those without room. It returns an error when there are no
// points, when a point's days are out of order or not unwrapped, or when the
// width is not from 320 to 6000.
func (m Agreement) Page(width int) (*press.Page, error) {
	if err := m.check(width); err != nil {
		return nil, err
	}
	m.Language = m.Language.Or()
	w := float64(width)
	u := press.UnitOf(w)
	margin := math.Round(1.5 * u)
	p := press.NewPage(w, 0, m.Grey, nil)
	room := plane.Rect{Left: margin, Right: w - margin, Top: margin}
	room.Top = p.Header(m.Caption, u, room)
	key := m.key(u)
	chart, beside := room, w >= 700
	if beside {
		chart.Right -= math.Round(key.width() + float64(1.6*u))
	}
	bottom, scale := m.draw(p, u, chart)
	key.scale = scale
	if beside {
		side := plane.Rect{Left: chart.Right + math.Round(1.6*u), Right: room.Right, Top: p.Layout.Frame.Top}
		bottom = max(bottom, key.draw(p, side))
	} else {
		bottom = key.draw(p, plane.Rect{Left: room.Left, Right: room.Right, Top: bottom + float64(0.8*u)})
	}
	bottom = p.Credits(m.Caption, u, plane.Rect{Left: margin, Top: math.Round(bottom + float64(0.9*u)), Right: w - margin})
	p.Layout.Height = math.Ceil(bottom + float64(margin*0.7))
	return p, nil
}

// check returns an error unless the chart can be drawn.
func (m Agreement) check(width int) error {
	if err := press.CheckWidth(width); err != nil {
		return err
	}
	if len(m.Points) == 0 {
		return errors.New("daychart: a chart of agreement without points has nothing to show; give one place at least")
	}
	for i, p := range m.Points {
		if err := p.check(); err != nil {
			return fmt.Errorf("daychart: point %d (%q): %w", i+1, p.Name, err)
		}
		if gap := math.Abs(float64(p.Typical - m.Points[0].Typical)); gap > season.YearDays {
			return fmt.Errorf("daychart: point %d (%q): typical day %g is %.0f days from that of %q, more than a year; give days unwrapped", i+1, p.Name, float64(p.Typical), gap, m.Points[0].Name)
		}
	}
	return nil
}

// farthest is the most days an unwrapped day may be away from the typical
// one: half a year.
const farthest = season.YearDays / 2.0

func (p AgreementPoint) check() error {
	if p.Years < 1 {
		return fmt.Errorf("%d years measured; want 1 at least", p.Years)
	}
	if !(p.Low <= p.Measured && p.Measured <= p.High) {
		return fmt.Errorf("measured day %g is not from the earliest, %g, to the latest, %g", float64(p.Measured), float64(p.Low), float64(p.High))
	}
	days := []season.Day{p.Low, p.High}
	if p.Early != 0 || p.Late != 0 {
		if !(p.Early <= p.Late) {
			return fmt.Errorf("early year on day %g, after the late year on day %g", float64(p.Early), float64(p.Late))
		}
		days = append(days, p.Early, p.Late)
	}
	for _, d := range days {
		if gap := math.Abs(float64(d - p.Typical)); !(gap <= farthest) {
			return fmt.Errorf("day %g is %.0f days from the typical day %g; give days unwrapped, early January after late December as 370", float64(d), gap, float64(p.Typical))
		}
	}
	return nil
}
