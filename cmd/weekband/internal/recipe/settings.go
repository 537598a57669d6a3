package recipe

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"weekband/grid"
	"weekband/grid/status"
	"weekband/grid/units"
)

// Settings returns everything the recipe says or leaves to a default, as text
// by key: "soil.depth": "10 cm". Windows are told apart by their id, as in
// windows[summer-annuals].threshold, earlier editions by their year, other
// lists by their place from 1. Equal settings have equal text however a recipe
// spells them. A key without a value has no entry.
func (r *Recipe) Settings() map[string]string {
	s := settings{}
	s.put("title", r.Title)
	s.put("edition", strconv.Itoa(r.Edition))
	s.put("credits", r.Credits)
	s.put("terrain", r.Terrain)
	s.put("places", r.Places)
	s.put("published", date(r.Published))
	s.normals(&r.Normals)
	s.put("grid.cell", size(r.Grid.Cell))
	if r.Grid.Box != nil {
		s.put("grid.box", edges(*r.Grid.Box))
	}
	if r.Soil.None {
		s.put("soil", "none")
	} else {
		s.put("soil.depth", metres(r.Soil.Depth))
		s.put("soil.calibration", r.Soil.Calibration)
	}
	for i := range r.Windows {
		s.window(&r.Windows[i])
	}
	for i, f := range r.Regions {
		key := fmt.Sprintf("regions[%d].", i+1)
		s.put(key+"file", f.File)
		s.put(key+"object", f.Object)
		s.put(key+"id", f.ID)
		s.put(key+"name", f.Name)
		s.put(key+"within", f.Within)
	}
	for _, e := range r.Earlier {
		key := fmt.Sprintf("earlier[%d].", e.Edition)
		s.put(key+"edition", strconv.Itoa(e.Edition))
		s.put(key+"published", date(e.Published))
		s.put(key+"address", e.Address)
	}
	s.looks(&r.Looks)
	return s
}

// settings is text by key; put leaves out what is empty.
type settings map[string]string

func (s settings) put(key, text string) {
	if text != "" {
		s[key] = text
	}
}

func (s settings) normals(n *Normals) {
	s.put("normals.files", strings.Join(n.Files, ", "))
	s.put("normals.sites", n.Sites)
	s.put("normals.values", n.Values)
	s.put("normals.sd", strings.Join(n.SD, ", "))
	s.put("normals.variable", n.Variable)
	s.put("normals.measures", n.Measures.String())
	s.put("normals.period", n.Period)
	unit := "auto"
	if n.Unit != 0 {
		unit = n.Unit.String()
	}
	s.put("normals.unit", unit)
}

func (s settings) window(w *status.Window) {
	put := func(key, text string) { s.put("windows["+w.ID+"]."+key, text) }
	put("id", w.ID)
	put("title", w.Title)
	put("threshold", degrees(w.Trigger.Level))
	put("starts", degrees(w.Starts.Level))
	put("direction", w.Trigger.Direction.String())
	put("residual", days(w.Treatment.HalfLife))
	put("q10", number(w.Treatment.Q10))
	put("reference", degrees(w.Treatment.Reference))
	put("second.below", percent(w.Second.Below))
	put("second.until", percent(w.Second.Until))
	put("ahead", days(w.AheadDays))
	put("floor", percent(w.WorthFloor))
	if k := w.Seeding; k != nil {
		put("seeding.date", k.Day.ISO())
		put("seeding.interval", days(k.Interval)) // what the method comes to
		put("seeding.young", days(k.Young))
	}
}

func (s settings) looks(l *Looks) {
	var kinds, weeks []string
	for _, m := range l.Maps {
		kinds = append(kinds, m.String())
	}
	if len(kinds) == 0 {
		kinds = []string{noMaps}
	}
	for _, w := range l.WorthOf {
		weeks = append(weeks, w.Begin().ISO())
	}
	s.put("maps", strings.Join(kinds, ", "))
	s.put("worth_of", strings.Join(weeks, ", "))
	s.put("relief", choose(l.Relief, "on", "off"))
	for i, inset := range l.Insets {
		key := fmt.Sprintf("insets[%d].", i+1)
		s.put(key+"title", inset.Title)
		s.put(key+"box", edges(inset.Box))
	}
	s.put("size", strconv.Itoa(l.Size))
	s.put("palette", l.Palette.String())
	s.put("logo", l.Logo)
	s.put("paper", strings.ToLower(l.Paper.String()))
	s.put("address", l.Address)
	s.put("handouts", choose(l.AllHandouts, "all", "some"))
	s.put("language", l.Language.Tag)
	s.put("dates", l.Language.Order.String())
}

func choose(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}

func number(v float64) string { return strconv.FormatFloat(v, 'g', 10, 64) }

// degrees is finer than what people are told.
func degrees(c units.Celsius) string {
	return fmt.Sprintf("%.6g °F (%.6g °C)", c.Fahrenheit(), float64(c))
}

func days(v float64) string { return number(v) + " d" }

func percent(share float64) string { return number(100*share) + " %" }

func metres(m units.Metres) string { return number(100*float64(m)) + " cm" }

func size(c units.CellSize) string {
	switch {
	case c.Metres > 0:
		return number(float64(c.Metres)/1000) + " km"
	case c.Degrees > 0:
		return number(c.Degrees) + " deg"
	}
	return ""
}

func edges(b grid.Box) string {
	return fmt.Sprintf("[%s, %s, %s, %s]", number(b.West), number(b.South), number(b.East), number(b.North))
}

func date(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}
