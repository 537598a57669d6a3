package daychart

import (
	"cmp"
	"math"
	"slices"

	"weekband/render/canvas"
	"weekband/render/lettering"
	"weekband/render/plane"
	"weekband/render/press"
	"weekband/render/wording"
)

// namesMost is how many dots get their name.
const namesMost = 12

// stack is one or more dots at one spot, under one name.
type stack struct {
	name   string
	others []string // names that are not written
	marks  []mark
}

// stacks gathers the dots that lie on one spot, the largest departure first.
// Dots without a name count to a stack but begin none.
func stacks(marks []mark) []stack {
	ordered := slices.Clone(marks)
	slices.SortStableFunc(ordered, func(a, b mark) int {
		return cmp.Or(cmp.Compare(math.Abs(b.departure()), math.Abs(a.departure())), cmp.Compare(b.Years, a.Years), cmp.Compare(a.Name, b.Name))
	})
	var out []stack
	for _, k := range ordered {
		i := slices.IndexFunc(out, func(g stack) bool {
			return math.Hypot(g.marks[0].at.X-k.at.X, g.marks[0].at.Y-k.at.Y) < 1
		})
		if i < 0 {
			out = append(out, stack{})
			i = len(out) - 1
		}
		g := &out[i]
		g.marks = append(g.marks, k)
		if g.name == "" {
			g.name = k.Name
		} else if k.Name != "" {
			g.others = append(g.others, k.Name)
		}
	}
	return out
}

// words returns the name of a stack, "Ardvik and 3 more" for four dots.
func (g stack) words(lang *wording.Language) string {
	if n := len(g.marks) - 1; n > 0 {
		return lang.Chart.AndMore(g.name, n)
	}
	return g.name
}

// namer finds room for names among the dots.
type namer struct {
	*lettering.Placer
	lang  *wording.Language
	frame plane.Rect
	unit  float64
	marks []mark
}

// names writes the names of the dots farthest from the line of the same day,
// and what the two sides of it mean.
func (m Agreement) names(p *press.Page, a dayAxes, marks []mark, u float64) {
	n := &namer{Placer: lettering.NewPlacer(a.frame, u, plane.Cover{}), lang: m.Language, frame: a.frame, unit: u, marks: marks}
	for _, k := range marks {
		n.Keep(k.box().Grow(1))
	}
	n.sides(p)
	for _, g := range stacks(marks) {
		p.Layout.Dropped = append(p.Layout.Dropped, g.others...)
		if g.name != "" && (len(n.Labels) >= namesMost || !n.name(g)) {
			p.Layout.Dropped = append(p.Layout.Dropped, g.name)
		}
	}
	for _, l := range n.Labels {
		if l.Leader != nil {
			thin := max(0.9, u*0.06)
			p.Stroke(l.Leader, canvas.Pen{Color: canvas.Casing, Width: 2.6 * thin})
			p.Stroke(l.Leader, canvas.Pen{Color: canvas.TextInk, Width: thin})
		}
	}
	for _, l := range n.Labels {
		for _, t := range l.Lines {
			p.Text(l.Kind, t)
		}
	}
}

// sides writes in the corners far from the line what they mean, where no dot
// and no whisker is.
func (n *namer) sides(p *press.Page) {
	font := press.SampleFont(n.unit)
	inner := n.frame.Grow(-0.7 * n.unit)
	for _, t := range [...]canvas.Text{
		{At: plane.Pixel{X: inner.Left, Y: inner.Top + font.Ascent()}, String: n.lang.Chart.Later},
		{At: plane.Pixel{X: inner.Right, Y: inner.Bottom - font.Descent()}, Anchor: canvas.End, String: n.lang.Chart.Earlier},
	} {
		t.Font, t.Color = font, canvas.LesserInk
		if b := t.Bounds().Grow(0.3 * n.unit); n.Free(b) && n.ruffle(b) == 0 {
			p.Text(press.ChartLabel, t)
			n.Keep(b)
		}
	}
}

// name writes a name where it costs least: near its dot, off the whiskers.
func (n *namer) name(g stack) bool {
	k := g.marks[0]
	for _, o := range g.marks { // the largest of the stack
		if o.radius > k.radius {
			k = o
		}
	}
	best, least := lettering.Label{}, math.Inf(1)
	font := canvas.Font{Face: canvas.Italic, Size: max(n.unit*0.9, press.MinText)}
	sets := []lettering.Setting{lettering.NewSetting([]string{g.words(n.lang)}, font)}
	if two := lettering.Halves(g.words(n.lang), font); two != nil {
		sets = append(sets, lettering.NewSetting(two, font))
	}
	n.Without(k.box().Center(), func() { // its own dot is not in its way
		for i, s := range sets {
			if l, cost := n.around(k, s); cost+float64(0.8*n.unit*float64(i)) < least {
				best, least = l, cost+float64(0.8*n.unit*float64(i))
			}
		}
	})
	if math.IsInf(least, 1) {
		return false
	}
	n.Take(best)
	return true
}
