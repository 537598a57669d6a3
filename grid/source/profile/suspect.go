package profile

import (
	"fmt"
	"math"
	"time"
)

// manyZeros is the share of exact zeros from which they look like missing
// cells.
const manyZeros = 0.05

// suspect fills in what looks wrong.
func (p *Profile) suspect() {
	for i := range p.Layers {
		p.suspectLayer(i)
	}
	if len(p.Layers) == 12 {
		p.suspectYear()
	}
}

func (p *Profile) say(format string, args ...any) {
	p.Suspicions = append(p.Suspicions, fmt.Sprintf(format, args...))
}

// suspectLayer looks at one layer alone.
func (p *Profile) suspectLayer(i int) {
	l := &p.Layers[i]
	switch {
	case l.valued == 0:
		p.say("%s has no values at all", p.name(i))
		return
	case l.Min == l.Max && l.valued > 1:
		p.say("%s holds the same value, %g, everywhere", p.name(i), l.Min)
	case l.Min <= -999 || l.Max >= 9999:
		p.say("%s reaches from %g to %g: a number that stands for missing cells seems to count as a value (the file says: %s)", p.name(i), l.Min, l.Max, orNone(p.NoData))
	}
	if share := float64(l.zeros) / float64(l.valued); share > manyZeros && l.Min != l.Max {
		p.say("%.0f %% of %s are exactly 0: missing cells may be written as 0", 100*share, p.name(i))
	}
}

func orNone(s string) string {
	if s == "" {
		return "nothing"
	}
	return s
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
	coldest, warmest := 0, 0
	for i, l := range p.Layers {
		if l.Mean < p.Layers[coldest].Mean {
			coldest = i
		}
		if l.Mean > p.Layers[warmest].Mean {
			warmest = i
		}
	}
	p.suspectSeasons(coldest, warmest)
	p.suspectMonths(p.Layers[warmest].Mean - p.Layers[coldest].Mean)
	p.suspectRows(coldest)
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

// suspectMonths asks whether a month departs from its neighbours.
func (p *Profile) suspectMonths(spread float64) {
	for i, l := range p.Layers {
		before, after := p.Layers[(i+11)%12].Mean, p.Layers[(i+1)%12].Mean
		if jump := l.Mean - (before+after)/2; math.Abs(jump) > 0.4*spread && spread > 0 {
			p.say("%s departs by %+.3g from the middle of its neighbours: is it another month, or in another unit?", p.name(i), jump)
		}
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
	if poleward > equatorward+0.1*(l.Max-l.Min) {
		p.say("in the coldest layer the half nearer to the pole is warmer, %.3g against %.3g: are the rows upside down, or the latitudes wrong?", poleward, equatorward)
	}
}
