package comparison

import (
	"os"
	"strings"

	"weekband/cmd/weekband/internal/atlas"
	"weekband/cmd/weekband/internal/cause"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid"
	"weekband/grid/abreast"
	"weekband/grid/classes"
	"weekband/grid/crossing"
	"weekband/grid/shift"
	"weekband/regions/bands"
	"weekband/render"
	"weekband/render/press"
)

// shiftMap puts ground and legend of the map of a window's shift together.
func (c *Comparison) shiftMap(w *comparedWindow) (render.ValueMap, error) {
	m := render.ValueMap{Caption: c.shiftCaption(w)}
	list := c.addClasses(&m, w)
	set, err := bands.Trace(bands.Field{Day: w.field.Days, Class: fates(w.field)}.Extend(tracing.Past), classes.Breaks(list), bands.Options{})
	if err != nil {
		return m, err
	}
	looks := c.undatedLooks(w)
	for _, part := range set.Bands {
		if part.Class == 0 {
			m.Classes[part.Index].Shape = part.Shape
			continue
		}
		fate := shift.Fate(part.Class)
		u := looks[fate]
		u.Shape, u.Share = part.Shape, w.sum.FateKm2[fate]/w.sum.Km2
		if fate == shift.OnlyBefore {
			u.Share += w.sum.FateKm2[shift.OnlyAfter] / w.sum.Km2
		}
		m.Undated = append(m.Undated, u)
	}
	return m, nil
}

// addClasses adds the classes to the legend and returns them: about no shift
// between two editions, and even ones between two windows, of which one mostly
// comes after the other.
func (c *Comparison) addClasses(m *render.ValueMap, w *comparedWindow) (list []classes.Class) {
	l := c.words()
	words := &l.Sentences.Shift
	var labels []string
	if c.twoWindows() {
		m.Heading, list = words.Later, classes.Even(w.field.Days, atlas.LeastDays)
		for _, class := range list {
			labels = append(labels, l.Class(class))
		}
	} else {
		scale := shift.ScaleOf(w.field.Days)
		m.Heading, m.Diverging, list = words.Heading, true, scale.Classes
		for _, class := range list {
			label := words.Days(class)
			if scale.Unit == shift.Weeks {
				label = words.Weeks(class, scale.Step)
			}
			labels = append(labels, label)
		}
	}
	km2 := classes.Areas(list, w.field.Days)
	for i, class := range list {
		m.Classes = append(m.Classes, render.ValueClass{From: class.From, To: class.To, Label: labels[i], Share: km2[i] / w.sum.Km2})
	}
	return list
}

// undatedLooks returns looks and labels of ground without a shift, by what
// became of it.
func (c *Comparison) undatedLooks(w *comparedWindow) map[shift.Fate]render.Undated {
	words := &c.words().Sentences.Shift
	gained, lost := words.Gained, words.Lost
	if c.twoWindows() {
		gained, lost = words.Only(w.after.Title), words.Only(w.before.Title)
	}
	return map[shift.Fate]render.Undated{
		shift.Gained: {Reason: render.Always, Label: gained}, shift.Lost: {Reason: render.Never, Label: lost},
		shift.Undated: {Reason: render.Flat, Label: words.Undated}, shift.OnlyBefore: {Reason: render.NoData, Label: words.Apart},
	}
}

// fates marks the cells without a shift by what became of them; ground that
// only one covers is one class.
func fates(f *shift.Field) *grid.Raster[uint8] {
	class := grid.NewRaster[uint8](f.Grid())
	for cell, fate := range f.Fate.All() {
		switch fate {
		case shift.Moved:
		case shift.OnlyAfter:
			class.Set(cell, uint8(shift.OnlyBefore))
		default:
			class.Set(cell, uint8(fate))
		}
	}
	return class
}

// shiftCaption holds the words around the map of a window's shift.
func (c *Comparison) shiftCaption(w *comparedWindow) press.Caption {
	l := c.words()
	s := &l.Sentences
	older, newer := c.names()
	shows := s.Shift.Windows(w.after.Title, w.before.Title)
	source := s.Edition(c.newer.made.Edition, c.newer.made.Period)
	if !c.twoWindows() {
		event := func(what string, w cause.Window) string {
			return l.Together(s.Window.Passing(what, crossing.Trigger{Level: w.Threshold, Direction: w.Direction}))
		}
		before, after := event(c.older.made.Soil, w.before), event(c.newer.made.Soil, w.after)
		shows = w.after.Title + ". " + s.Shift.Events(after, newer, before, older)
		if before == after {
			shows = w.after.Title + ". " + s.Shift.Editions(after, newer, older)
		}
		source += " " + s.Shift.Compared(s.Edition(c.older.made.Edition, c.older.made.Period))
	}
	if credits := c.newer.lookup.Credits; credits != "" {
		source += " " + strings.TrimSuffix(credits, ".") + "."
	}
	return press.Caption{Title: c.newer.made.Title, Subtitle: shows + ".", Source: source, Cautions: []string{s.Caution}}
}

// drawShift writes the map of a window's shift, in colour and in grey.
func (c *Comparison) drawShift(root *os.Root, maps *render.Atlas, w *comparedWindow) error {
	m, err := c.shiftMap(w)
	if err != nil {
		return err
	}
	grey := m
	grey.Grey = true
	return abreast.AtOnce(
		func() error { return printShift(root, maps, m, w.after.ID+".png") },
		func() error { return printShift(root, maps, grey, w.after.ID+"-grey.png") },
	)
}

// printShift writes one map as PNG that says its size in print.
func printShift(root *os.Root, maps *render.Atlas, m render.ValueMap, name string) error {
	page, err := maps.Values(m)
	if err != nil {
		return err
	}
	return atlas.CreatePicture(root, name, atlas.Printed(page.Page))
}
