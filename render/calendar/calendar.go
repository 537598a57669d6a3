package calendar

import (
	"io"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"weekband/grid/status"
	"weekband/regions/report"
	"weekband/render/wording"
)

// producer names the program in every file, as a formal public identifier.
const producer = "-//weekband//weeks of a region//EN"

// Edition is what the calendars of an edition have in common.
type Edition struct {
	Title     string
	Year      int       // in which the crossings lie
	Published time.Time // stamps every event; 1 January of Year when zero
	Measures  string    // what crosses, "soil at 4 in (10 cm)"
	Address   string    // of the published pages, "" for none
	// Domain is what unique identifiers end in after the @: words that are this
	// site's own, such as its host, and the same every year.
	Domain   string
	Language *wording.Language // English when nil
}

// Region is whom a calendar is for.
type Region struct {
	Slug, Name string       // the slug stands in unique identifiers
	Page       string       // address of its own page, "" for the edition's
	Rows       []report.Row // of all windows
}

// HasEvents reports whether any row has weeks on at least half of its ground; a
// region without has no calendar.
func HasEvents(rows []report.Row) bool {
	for i := range rows {
		if rows[i].MostlyDated() {
			return true
		}
	}
	return false
}

// Write writes a region's calendar: for every row with weeks on at least half
// of its ground an event each of ahead of time, on time and catching up, unless
// it is empty. Lines end in CR and LF
// and are folded at 75 octets. The error is w's.
func (e Edition) Write(w io.Writer, r Region) error {
	e.Language = e.Language.Or()
	if e.Published.IsZero() {
		e.Published = time.Date(e.Year, time.January, 1, 0, 0, 0, 0, time.UTC)
	}
	if r.Page == "" {
		r.Page = e.Address
	}
	c := &ics.Calendar{}
	c.SetVersion("2.0")
	c.SetProductId(producer)
	c.SetCalscale("GREGORIAN")
	e.describe(c, r)
	for i := range r.Rows {
		if r.Rows[i].MostlyDated() {
			e.add(c, r, &r.Rows[i])
		}
	}
	return c.SerializeTo(w, ics.WithNewLineWindows, ics.WithLineLength(75))
}

// describe adds the properties of a calendar as a whole, which RFC 7986
// defines (sections 5.1, 5.2 and 5.5).
func (e *Edition) describe(c *ics.Calendar, r Region) {
	say := func(property ics.Property, value string) {
		p := ics.BaseProperty{IANAToken: string(property), Value: value}
		c.CalendarProperties = append(c.CalendarProperties, ics.CalendarProperty{BaseProperty: p})
	}
	words := &e.Language.Sentences
	say(ics.PropertyName, clean(words.Calendar.Title(r.Name, e.Title)))
	say(ics.PropertyDescription, clean(strings.Join(words.Cautions, "\n")))
	if r.Page != "" {
		say(ics.PropertyUrl, r.Page)
	}
}

// add adds the events of one window.
func (e *Edition) add(c *ics.Calendar, r Region, row *report.Row) {
	k := inYear(row.Calendar)
	labels, words := &e.Language.Sentences.Region, &e.Language.Sentences.Calendar
	for _, s := range []stretch{
		{status.Ahead, k.AheadFrom, k.OntimeFrom, labels.Ahead, words.Ahead},
		{status.OnTime, k.OntimeFrom, k.OntimeTo, labels.OnTime, words.OnTime},
		{status.CatchingUp, k.OntimeTo, k.CatchupTo, labels.CatchingUp, words.CatchingUp},
	} {
		if s.to <= s.from {
			continue
		}
		begin, end := s.days(e.Year)
		event := c.AddEvent(e.identifier(r, row, s.status))
		event.SetDtStampTime(e.Published)
		event.SetAllDayStartAt(begin)
		event.SetAllDayEndAt(end)
		event.SetSummary(clean(words.Summary(s.label, row.Window.Title, r.Name)))
		event.SetDescription(clean(e.description(row, s)))
		event.AddCategory(clean(s.label))
		event.SetTimeTransparency(ics.TransparencyTransparent)
		if r.Page != "" {
			event.SetURL(r.Page)
		}
	}
}

// identifier returns what an event is known by for ever. Its words have no
// dots, so that no two are the same.
func (e *Edition) identifier(r Region, row *report.Row, s status.Status) string {
	year := time.Date(e.Year, time.January, 1, 0, 0, 0, 0, time.UTC).Format("2006")
	return strings.Join([]string{year, row.Window.ID, s.ID(), r.Slug}, ".") + "@" + e.Domain
}

// description says what a status means, how far from typical its dates may be,
// and the cautions in short.
func (e *Edition) description(row *report.Row, s stretch) string {
	words, l := &e.Language.Sentences, e.Language
	event := words.Window.Passing(e.Measures, row.Window.Trigger)
	lines := []string{s.meaning}
	if v := row.Value; v != nil && v.Costs.Best.Worth > 0 && s.status == status.Ahead {
		lines = append(lines, words.Calendar.AtBest(l.Numbers.Percent(v.Costs.AheadFrom.Worth), l.Numbers.Percent(v.Costs.Best.Worth)))
	}
	lines = append(lines, words.Calendar.Typical(event, l.Week(row.Median.Week())))
	if row.Doubt > 0 {
		early, late := row.Years()
		lines = append(lines, words.Calendar.Years(l.Date(early), l.Date(late)))
	}
	if !row.DatedThroughout() {
		lines = append(lines, words.Region.Part(l.Percent(row.Shares.DatedShare)))
	}
	return strings.Join(append(lines, words.Caution, words.Calendar.Keep), "\n")
}

// clean returns a text that a calendar may hold: valid UTF-8 without control
// characters other than a line feed (RFC 5545, 3.1 and 3.3.11).
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' {
			return r
		}
		if r < ' ' || r >= 0x7f && r < 0xa0 {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
}
