package answer

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"weekband/grid/crossing"
	"weekband/grid/spread"
	"weekband/render/lookup"
	"weekband/render/wording"
)

// writeWhen tells people when, on lines of their own.
func writeWhen(b *strings.Builder, l *wording.Language, measures string, a lookup.Answer) {
	if !a.Reason.HasDay() {
		fmt.Fprintf(b, "  %s\n", undatedSentence(measures, &a))
		return
	}
	c := a.Calendar
	fmt.Fprintf(b, "  %s\n", typicalSentence(l, measures, &a))
	fmt.Fprintf(b, "  ahead of time  %s\n", l.Span(c.AheadFrom, c.OntimeFrom))
	fmt.Fprintf(b, "  on time        %s\n", l.Span(c.OntimeFrom, c.OntimeTo))
	fmt.Fprintf(b, "  catching up    %s\n", l.Span(c.OntimeTo, c.CatchupTo))
	if a.Error > 0 {
		fmt.Fprintf(b, "  The typical week is expected to be off by about %s.\n", roughDays(spread.Expected(a.Error)))
	}
	if a.Beyond {
		fmt.Fprintf(b, "  No station with soil thermometers is near: soil here is air and a general offset.\n")
	}
}

// typicalSentence says when the soil passes the threshold.
func typicalSentence(l *wording.Language, measures string, a *lookup.Answer) string {
	verb := "reaches"
	if a.Window.Trigger.Direction == crossing.Cooling {
		verb = "falls to"
	}
	return fmt.Sprintf("%s %s %s in the week of %s in a typical year; in one year of ten before %s, in one of ten after %s.",
		capital(measures), verb, a.Window.Trigger.Level.Both(), l.Week(a.Day.Week()), l.Date(a.Early), l.Date(a.Late))
}

// undatedSentence says why there is no day.
func undatedSentence(measures string, a *lookup.Answer) string {
	level, what := a.Window.Trigger.Level.Both(), capital(measures)
	switch a.Reason {
	case crossing.Never:
		if a.Window.Trigger.Direction == crossing.Cooling {
			return fmt.Sprintf("%s is never as warm as %s in a typical year here.", what, level)
		}
		return fmt.Sprintf("%s never reaches %s in a typical year here.", what, level)
	case crossing.Always:
		return fmt.Sprintf("%s stays above %s all through a typical year here: no week stands out.", what, level)
	case crossing.Flat:
		return fmt.Sprintf("%s hovers near %s for weeks in a typical year here, so no week can be told; go by a thermometer and local advice.", what, level)
	}
	return "No data here: the point lies off the land the normals cover."
}

// capital begins a sentence with what is measured.
func capital(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(r)) + text[n:]
}
