package recipe

import (
	"regexp"
	"slices"
	"time"

	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/worth"
	"weekband/regions/naming"
)

// startsApart is how far Starts lies from the threshold, toward the season's
// beginning, when a window does not say: 5 °F, as 50 and 55 °F are apart.
const startsApart units.Delta = 25.0 / 9

// plausible bounds thresholds: no weed seed waits for less or more.
const (
	coldest units.Celsius = -5
	warmest units.Celsius = 45
)

// slug is what an id must look like: it becomes part of file names.
var slug = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

func windows(root *mapping) []status.Window {
	list := root.mappings("windows")
	if len(list) == 0 {
		root.missing("windows", "a list of windows, each with id, title, threshold and direction")
	}
	var out []status.Window
	for _, m := range list {
		w := window(m)
		if slices.ContainsFunc(out, func(o status.Window) bool { return w.ID != "" && o.ID == w.ID }) {
			m.problem("id", "id %q stands twice; every window needs its own", w.ID)
		}
		out = append(out, w)
	}
	return out
}

func window(m *mapping) status.Window {
	w := status.Window{ID: m.requiredText("id"), Title: m.title()}
	if w.ID != "" && (!slug.MatchString(w.ID) || len(w.ID) > 60) {
		m.problem("id", "id %q: want small letters, digits and single dashes, at most 60, such as summer-annuals; it names files", w.ID)
	}
	if naming.Device(w.ID) {
		m.problem("id", "id %q: Windows keeps this name for a device; choose another, it names files", w.ID)
	}
	choices := map[string]func(){}
	for _, d := range []crossing.Direction{crossing.Warming, crossing.Cooling} {
		choices[d.String()] = func() { w.Trigger.Direction = d }
	}
	m.choice("direction", crossing.Warming.String(), choices)

	level, ok := m.temperature("threshold", true)
	w.Trigger.Level = level
	w.Starts = crossing.Trigger{Level: level.Add(-startsApart), Direction: w.Trigger.Direction}
	if w.Trigger.Direction == crossing.Cooling {
		w.Starts.Level = level.Add(startsApart)
	}
	if starts, given := m.temperature("starts", false); given {
		w.Starts.Level = starts
		if ok && (starts > level) == (w.Trigger.Direction == crossing.Warming) && starts != level {
			m.problem("starts", "starts %s lies past the threshold %s; a %s window starts on the other side of it",
				starts.Both(), level.Both(), w.Trigger.Direction)
		}
	}
	w.Treatment = treatment(m)
	w.Second = second(m.mapping("second"))
	w.Seeding = seeding(m.mapping("seeding"), w.Treatment.HalfLife)
	w.AheadDays = m.days("ahead", status.DefaultAheadDays, 0, 120)
	w.WorthFloor = m.percent("floor", status.DefaultWorthFloor*100) / 100
	m.finish()
	return w
}

// treatment reads how long a treatment lasts.
func treatment(m *mapping) worth.Treatment {
	t := worth.Usual(residual(m))
	t.Q10 = m.number("q10", worth.DefaultQ10, 1, 4)
	if reference, given := m.temperature("reference", false); given {
		t.Reference = reference
		if reference <= worth.Frozen || reference > worth.Warmest {
			m.problem("reference", "reference %s: want a soil temperature above %s, such as 20 °C", reference.Both(), worth.Frozen.Both())
		}
	}
	return t
}

// residual reads short, medium, long or a half-life such as 45 d.
func residual(m *mapping) float64 {
	half := worth.Medium
	text := m.text("residual", "medium")
	classes := map[string]float64{"short": worth.Short, "medium": worth.Medium, "long": worth.Long}
	if days, ok := classes[text]; ok {
		return days
	}
	days, err := units.ParseDays(text)
	if err != nil || days < 1 || days > 1000 {
		m.problem("residual", "residual %q: want short, medium, long, or a half-life from 1 d to 1000 d such as 45 d", text)
		return half
	}
	return days
}

// second reads when a second application is due.
func second(m *mapping) worth.SecondRule {
	rule := worth.SecondRule{Below: worth.DefaultBelow, Until: worth.DefaultUntil}
	if m != nil {
		rule.Below = m.percent("below", 100*rule.Below) / 100
		rule.Until = m.percent("until", 100*rule.Until) / 100
		m.finish()
	}
	return rule
}

// seeding reads when grass is seeded, nil when it is not.
func seeding(m *mapping, halfLife float64) *worth.Overseeding {
	if m == nil {
		return nil
	}
	text := m.requiredText("date")
	date, err := time.Parse("01-02", text)
	if text != "" && err != nil {
		m.problem("date", "date %q: want a month and a day, such as 09-01", text)
	}
	var method worth.Method
	m.choice("method", method.String(), map[string]func(){
		worth.Broadcast.String(): func() { method = worth.Broadcast }, worth.Slit.String(): func() { method = worth.Slit },
	})
	o := worth.Overseeding{
		Interval: m.days("interval", worth.ReseedingInterval(halfLife, method), 0, 365),
		Young:    m.days("young", worth.DefaultYoung, 1, 365),
	}
	if err == nil {
		o.Day = season.OfDate(date.Month(), date.Day())
	}
	m.finish()
	return &o
}
