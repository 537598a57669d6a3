package wording

import "weekband/grid/classes"

// Numbers is how numbers and classes of them are written.
type Numbers struct {
	Number  func(v float64) string // as exact as it is, with a true minus
	Percent func(share float64) string
	Dash    func(from, to string) string // a class of positive limits
	To      func(from, to string) string // one with a negative limit
	Under   func(to string) string
	OrMore  func(from string) string
	All     string
}

// Class writes the limits of a class of values.
func (l *Language) Class(c classes.Class) string {
	n := l.Numbers
	switch {
	case c.OpenBegin && c.OpenEnd:
		return n.All
	case c.OpenBegin:
		return n.Under(n.Number(c.To))
	case c.OpenEnd:
		return n.OrMore(n.Number(c.From))
	case c.From < 0:
		return n.To(n.Number(c.From), n.Number(c.To))
	}
	return n.Dash(n.Number(c.From), n.Number(c.To))
}

// Percent writes a share of the ground in whole percents, "" for none.
func (l *Language) Percent(share float64) string {
	if share <= 0 {
		return ""
	}
	return l.Numbers.Percent(share)
}
