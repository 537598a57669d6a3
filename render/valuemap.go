package render

import (
	"fmt"

	"github.com/paulmach/orb"

	"weekband/render/looks"
	"weekband/render/press"
	"weekband/render/wording"
)

// ValueMap is a shaded map of a quantity: days of error, a share.
type ValueMap struct {
	press.Caption
	Heading string       // of the legend: the quantity and its unit, "Expected error, days"
	Classes []ValueClass // rising, areas apart from each other
	Undated []Undated    // ground without a value, painted over the classes
	// Diverging maps shade both ways from a neutral middle class: Classes must
	// be odd in number.
	Diverging bool
	Grey      bool // for copiers: greys and patterns instead of colours
}

// ValueClass is all ground with its value in [From, To).
type ValueClass struct {
	From, To float64
	Label    string // its limits, "2–5"
	Shape    orb.MultiPolygon
	Share    float64 // of the territory's area, 0 to 1
}

// Values returns the page of a map of a quantity. It returns an error when the
// classes do not rise, or when a diverging map has no middle one.
func (a *Atlas) Values(m ValueMap) (*Map, error) {
	if err := m.check(); err != nil {
		return nil, err
	}
	return a.compose(m.figure(a.Language)), nil
}

func (m ValueMap) check() error {
	for i := 1; i < len(m.Classes); i++ {
		if a, b := m.Classes[i-1], m.Classes[i]; b.From < a.To {
			return fmt.Errorf("render: class %q begins at %g, before class %q ends at %g; classes must rise and not overlap", b.Label, b.From, a.Label, a.To)
		}
	}
	if n := len(m.Classes); m.Diverging && n > 0 && n%2 == 0 {
		return fmt.Errorf("render: %d classes of a diverging map have no middle; want as many below it as above", n)
	}
	return nil
}

func (m ValueMap) figure(lang *wording.Language) figure {
	f := figure{caption: m.Caption, grey: m.Grey, legend: legend{lang: lang, heading: m.Heading}}
	ramp := looks.Amounts(len(m.Classes), m.Grey)
	if m.Diverging {
		ramp = looks.Changes(len(m.Classes), m.Grey)
	}
	for i, l := range ramp {
		c := m.Classes[i]
		f.areas = append(f.areas, area{shape: c.Shape, look: l})
		f.legend.entries = append(f.legend.entries, entry{look: l, label: c.Label, share: c.Share})
	}
	f.undated(m.Undated)
	return f
}
