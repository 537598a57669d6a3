package profile

import (
	"fmt"
	"math"
	"slices"
	"time"

	"weekband/grid/units"
)

// manyAlike is the share of cells with one and the same extreme value, or 0,
// from which it looks like no measurement.
const manyAlike = 0.05

// far is how far a number that stands for missing cells lies from all values
// at least, such as -99 from °C.
const far = 50

// usual are numbers often written for missing cells; common practice, no
// source.
var usual = []float64{-999, -9998, -9999, -32767, -32768, -99999}

// suspect fills in what looks wrong.
func (p *Profile) suspect() {
	for _, look := range []func(*Profile, int) string{(*Profile).empty, (*Profile).constant, (*Profile).missingAsValue, (*Profile).zeros, (*Profile).clipped} {
		var first string
		more := -1
		for i := range p.Layers {
			if words := look(p, i); words != "" {
				if more++; more == 0 {
					first = words
				}
			}
		}
		switch {
		case more == 0:
			p.say("%s", first)
		case more == 1:
			p.say("%s; another layer is alike", first)
		case more > 1:
			p.say("%s; %d other layers are alike", first, more)
		}
	}
	if len(p.Layers) == 12 {
		p.suspectYear()
	}
}

func (p *Profile) say(format string, args ...any) {
	p.Suspicions = append(p.Suspicions, fmt.Sprintf(format, args...))
}

func (p *Profile) empty(i int) string {
	if p.Layers[i].valued > 0 {
		return ""
	}
	return p.name(i) + " has no values at all"
}

func (p *Profile) constant(i int) string {
	l := &p.Layers[i]
	if l.valued < 2 || l.Min != l.Max {
		return ""
	}
	return fmt.Sprintf("%s holds the same value, %g, everywhere", p.name(i), l.Min)
}

// missingAsValue looks for an extreme that lies farther from all other values
// than these do from each other, or is a usual number for it.
func (p *Profile) missingAsValue(i int) string {
	l := &p.Layers[i]
	if l.valued == 0 || l.Min == l.Max {
		return ""
	}
	low, high := l.low, l.high
	number, cells := low.at, low.cells
	switch {
	case low.next-low.at > max(l.Max-low.next, far):
	case high.next-high.at > max(-l.Min-high.next, far):
		number, cells = -high.at, high.cells
	case low.cells > 2 && slices.Contains(usual, low.at):
	default:
		return ""
	}
	return fmt.Sprintf("%s reaches from %.6g to %.6g: %.6g, in %s, seems to be a number that stands for missing cells but counts as a value (the file says: %s)",
		p.name(i), l.Min, l.Max, number, units.Count(cells, "cell"), orNone(p.NoData))
}

func orNone(s string) string {
	if s == "" {
		return "nothing"
	}
	return s
}

func (p *Profile) zeros(i int) string {
	l := &p.Layers[i]
	share := float64(l.zeros) / float64(max(l.valued, 1))
	if share <= manyAlike || l.Min == l.Max {
		return ""
	}
	return fmt.Sprintf("%.0f %% of %s are exactly 0: missing cells may be written as 0", 100*share, p.name(i))
}

func (p *Profile) clipped(i int) string {
	l := &p.Layers[i]
	n, word := l.low.cells, "least"
	value := l.Min
	if l.high.cells > n {
		n, word, value = l.high.cells, "greatest", l.Max
	}
	share := float64(n) / float64(max(l.valued, 1))
	if n < 20 || share <= manyAlike || l.Min == l.Max || value == 0 || p.missingAsValue(i) != "" {
		return ""
	}
	return fmt.Sprintf("%.0f %% of %s are exactly %.6g, the %s value: values may be cut off there", 100*share, p.name(i), value, word)
}

// suspectYear looks at twelve layers as the months of a year.
func (p *Profile) suspectYear() {
	for i, l := range p.Layers {
		if l.valued == 0 {
			return
		}
		if l.Month != 0 && l.Month != i+1 {
			p.say("%s is %v by its time; the layers are not in the order of the months", p.name(i), time.Month(l.Month))
			return
		}
	}
	p.suspectGaps()
	coldest, warmest := 0, 0
	for i, l := range p.Layers {
		if l.Mean < p.Layers[coldest].Mean {
			coldest = i
		}
		if l.Mean > p.Layers[warmest].Mean {
			warmest = i
		}
	}
	if coldest == warmest {
		p.say("all twelve layers have the same mean: are they one month?")
		return
	}
	p.suspectSeasons(coldest, warmest)
	p.suspectMonths(p.Layers[warmest].Mean - p.Layers[coldest].Mean)
	p.suspectRows(coldest)
	p.suspectHemispheres()
}

// suspectGaps asks whether all months have the same cells.
func (p *Profile) suspectGaps() {
	least, most := 0, 0
	for i, l := range p.Layers {
		if l.valued < p.Layers[least].valued {
			least = i
		}
		if l.valued > p.Layers[most].valued {
			most = i
		}
	}
	if few, many := p.Layers[least].valued, p.Layers[most].valued; few < many {
		p.say("%s has %d values and %s only %d: cells without a value in every month are left out of a year", p.name(most), many, p.name(least), few)
	}
}

// suspectSeasons asks whether summer is in summer.
func (p *Profile) suspectSeasons(coldest, warmest int) {
	lat := p.Grid.Box().Center().Lat
	months := map[bool][2]string{true: {"June to September", "northern"}, false: {"December to March", "southern"}}
	north := lat > 0
	if math.Abs(lat) < 23.5 { // between the tropics anything goes
		return
	}
	summer := warmest >= 5 && warmest <= 8
	if !north {
		summer = warmest == 11 || warmest <= 2
	}
	if !summer {
		p.say("the warmest layer is number %d and the coldest number %d; in %s latitudes the warmest month is one of %s: do the layers begin with January?",
			warmest+1, coldest+1, months[north][1], months[north][0])
	}
}

// offCourse is the share of the year's range by which a month may depart from
// a smooth course. Exchanged neighbours in spring depart by 0.23; sound years
// by 0.05 at most.
const offCourse = 0.12

// suspectMonths asks whether a month departs from the course of the year: the
// mean and two harmonics of the twelve means.
func (p *Profile) suspectMonths(spread float64) {
	off := departures(p.Layers)
	worst := 0.0
	for _, d := range off {
		worst = max(worst, math.Abs(d))
	}
	for i, d := range off {
		l := &p.Layers[i]
		if size := math.Abs(d); size > offCourse*spread && size > 0.02*(l.Max-l.Min) && size > 0.7*worst {
			p.say("%s departs by %+.3g from the course of the year: is it another month, or in another unit?", p.name(i), d)
		}
	}
}

// departures returns the means of twelve layers less their first two
// harmonics, which are orthogonal over twelve even steps.
func departures(layers []Layer) []float64 {
	off := make([]float64, len(layers))
	n := float64(len(layers))
	for i := range off {
		off[i] = layers[i].Mean
		for j, l := range layers {
			x := 2 * math.Pi * float64(i-j) / n
			off[i] -= float64(l.Mean / n * (1 + float64(2*math.Cos(x)) + float64(2*math.Cos(2*x))))
		}
	}
	return off
}

// suspectHemispheres asks whether each hemisphere has its summer, when the
// grid covers both well.
func (p *Profile) suspectHemispheres() {
	if box := p.Grid.Box(); box.South > -20 || box.North < 20 {
		return
	}
	january, july := &p.Layers[0], &p.Layers[6]
	if north, south := july.north-january.north, july.south-january.south; north < 0 && south > 0 {
		p.say("from layer 1 to layer 7 the northern half changes by %+.3g and the southern by %+.3g: are the rows upside down, or do the layers begin with July?", north, south)
	}
}

// suspectRows asks whether north is up: poleward is colder in the coldest
// month.
func (p *Profile) suspectRows(coldest int) {
	box := p.Grid.Box()
	if box.South < 0 && box.North > 0 || box.North-box.South < 5 {
		return
	}
	l := &p.Layers[coldest]
	poleward, equatorward := l.north, l.south
	if box.North <= 0 {
		poleward, equatorward = equatorward, poleward
	}
	if l.Max > l.Min && poleward > equatorward+float64(0.1*(l.Max-l.Min)) {
		p.say("in the coldest layer the half nearer to the pole is warmer, %.3g against %.3g: are the rows upside down, or the latitudes wrong?", poleward, equatorward)
	}
}
