package render

import (
	"cmp"

	"weekband/render/canvas"
	"weekband/render/looks"
	"weekband/render/wording"
)

// Bands returns the page of a shaded map. It returns an error when the bands
// do not rise.
func (a *Atlas) Bands(m BandMap) (*Map, error) {
	if err := m.check(); err != nil {
		return nil, err
	}
	return a.compose(m.figure(a.Language)), nil
}

func (m BandMap) figure(lang *wording.Language) figure {
	f := figure{caption: m.Caption, grey: m.Grey, relief: !m.Grey, legend: legend{lang: lang, heading: cmp.Or(m.Heading, lang.Legend.TypicalWeek)}}
	ramp := looks.Weeks(m.Scheme, m.Before+len(m.Bands)+m.After, m.Grey)[m.Before:]
	for i, l := range ramp[:len(m.Bands)] {
		b := m.Bands[i]
		f.areas = append(f.areas, area{shape: b.Shape, look: l})
		f.legend.entries = append(f.legend.entries, entry{look: l, label: b.Label, share: b.Share})
	}
	f.undated(m.Undated)
	if len(m.Uncertain.Shape) > 0 {
		l := canvas.Look{Tone: canvas.BareGround, Pattern: canvas.Wide, Cased: true}
		label := cmp.Or(m.Uncertain.Label, lang.Legend.LessSure)
		f.marks = append(f.marks, area{shape: m.Uncertain.Shape, look: l})
		f.legend.others = append(f.legend.others, entry{look: l, label: label, share: m.Uncertain.Share})
	}
	return f
}

// undated adds ground without a week, with a legend entry where it occurs.
func (f *figure) undated(list []Undated) {
	for _, u := range list {
		if len(u.Shape) == 0 {
			continue
		}
		l := undatedLooks[u.Reason]
		f.covers = append(f.covers, area{shape: u.Shape, look: l})
		f.legend.others = append(f.legend.others, entry{look: l, label: cmp.Or(u.Label, u.Reason.in(f.legend.lang)), share: u.Share})
	}
}
