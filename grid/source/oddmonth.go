package source

import (
	"fmt"
	"math"
)

// oddMonth is how far, in kelvins, the mean of a month may lie from the middle
// of those before and after. A yearly wave of 60 K from coldest to warmest
// month, as in inner Siberia, has 4 K; a month in °F among months in °C, or in
// tenths, has more than 15 nearly everywhere.
const oddMonth = 15

// fewAlike is how many values of a month may all be the same without a word.
const fewAlike = 10

// checkMonths compares the samples of twelve months with each other: one
// without values, or far off its neighbours, is another file than it is taken
// for. Months that are copies, or hold one value, are noted.
func (n *Normals) checkMonths() error {
	if len(n.layers) != 12 || n.diff {
		return nil
	}
	list, err := n.sample()
	if err != nil {
		return err
	}
	all := 0
	for i := range list {
		all = max(all, list[i].count)
	}
	slope, _ := linear(n.scale)
	if n.scale == 0 {
		slope = 1
	}
	for i := range list {
		s, before, after := &list[i], &list[(i+11)%12], &list[(i+1)%12]
		switch {
		case all > 0 && s.count == 0:
			return fmt.Errorf("%s has no values where other months have some; want all twelve over the same ground: is it the right file?", n.layerName(i))
		case s.low == s.high && s.count >= fewAlike:
			n.notes = append(n.notes, fmt.Sprintf("%s holds the same value, %g, everywhere", n.layerName(i), s.low))
		case s.count > 1 && s.same(after):
			n.notes = append(n.notes, fmt.Sprintf("%s and %s hold the same values; is one a copy of the other?", n.layerName(i), n.layerName((i+1)%12)))
		}
		off := math.Abs(s.mean() - (before.mean()+after.mean())/2)
		if s.low <= -999 || s.high >= 9999 {
			continue // a missing cell that counts as a value, which reading tells
		}
		if off*slope > oddMonth && off > 2*math.Abs(before.mean()-after.mean()) {
			return fmt.Errorf("%s: its mean is %.4g, those of the months before and after are %.4g and %.4g; want all twelve in one unit: is this file in another, or of another kind?",
				n.layerName(i), s.mean(), before.mean(), after.mean())
		}
	}
	return nil
}

// layerName names a month by its file, and its layer where the file has
// several.
func (n *Normals) layerName(i int) string {
	l := n.layers[i]
	name := l.from.Describe().Name
	if l.from.Count() > 1 {
		name += fmt.Sprintf(", layer %d", l.index+1)
	}
	return name
}
