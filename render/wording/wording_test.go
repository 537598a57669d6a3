package wording_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"weekband/grid/classes"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/render/caution"
	"weekband/render/wording"
)

func ExampleLanguage_Span() {
	for _, order := range wording.Orders {
		l, err := wording.Of("en", order)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(l.Date(71), l.Week(11), l.Span(57, 64), l.Stretch(71, 78, false, true))
	}
	// Output:
	// Mar 12 Mar 12–18 Feb 26–Mar 4 Mar 12 or later
	// 12 Mar 12–18 Mar 26 Feb–4 Mar 12 Mar or later
}

// unset lists the fields of a catalogue that say nothing.
func unset(v reflect.Value, path string) []string {
	switch v.Kind() {
	case reflect.Struct:
		var out []string
		for i := range v.NumField() {
			out = append(out, unset(v.Field(i), path+"."+v.Type().Field(i).Name)...)
		}
		return out
	case reflect.Array:
		var out []string
		for i := range v.Len() {
			out = append(out, unset(v.Index(i), fmt.Sprintf("%s[%d]", path, i))...)
		}
		return out
	}
	if v.IsZero() && v.Type() != reflect.TypeFor[wording.Order]() {
		return []string{path}
	}
	return nil
}

func TestCataloguesAreComplete(t *testing.T) {
	for _, tag := range wording.Tags() {
		l, err := wording.Of(tag, wording.MonthFirst)
		if err != nil {
			t.Fatal(err)
		}
		if got := unset(reflect.ValueOf(l).Elem(), tag); len(got) > 0 {
			t.Errorf("not set: %s", strings.Join(got, ", "))
		}
		if n := len(l.Sentences.Cautions); n != len(caution.All) {
			t.Errorf("%s: %d cautions, want %d", tag, n, len(caution.All))
		}
	}
	l := wording.English()
	l.Map.North, l.Dates.Short[2], l.Dates.Before = "", "", nil
	if got := unset(reflect.ValueOf(l).Elem(), "l"); len(got) != 3 {
		t.Errorf("three fields are missing, found %q", got)
	}
}

// The median region of the demo has ahead of time begin at seven tenths of what the
// best day stops in one, and at two fifths in the other; of what is left when
// catching up begins an application stops a part. No sentence promises more.
func TestNoStatusPromisesTooMuch(t *testing.T) {
	words := wording.English().Sentences
	for name, text := range map[string]string{
		"window": strings.Join(words.Window.Guide(12.8), " "), "region": strings.Join(words.Region.Guide(12.8), " "), "calendar": words.Calendar.Ahead + " " + words.Calendar.CatchingUp,
	} {
		if !strings.Contains(text, "strength is lost before the weeds come") || !strings.Contains(text, "can still stop weeds that are not") {
			t.Errorf("%s does not tell what is lost: %q", name, text)
		}
		for _, promise := range []string{"strength lasts", "still stops", "those that are not"} {
			if strings.Contains(text, promise) {
				t.Errorf("%s promises %q", name, promise)
			}
		}
	}
}

// With the month first English dates are those that messages print, and month
// names those of the standard library.
func TestEnglishDatesAreThoseOfMessages(t *testing.T) {
	l := wording.English()
	for doy := season.Day(1); doy <= season.YearDays; doy++ {
		if l.Date(doy) != doy.String() {
			t.Fatalf("day %v is %q, in messages %q", float64(doy), l.Date(doy), doy)
		}
		for _, long := range []season.Day{0.5, 1, 2, 7, 8, 30, 200, 300} {
			if got, want := l.Span(doy, doy+long), season.Span(doy, doy+long); got != want {
				t.Fatalf("%v days from %v are %q, in messages %q", float64(long), doy, got, want)
			}
		}
	}
	for w := season.Week(1); w <= season.Weeks; w++ {
		if l.Week(w) != w.String() {
			t.Errorf("week %d is %q, in messages %q", int(w), l.Week(w), w)
		}
	}
	for m := time.January; m <= time.December; m++ {
		if l.Month(m) != m.String() || l.ShortMonth(m) != m.String()[:3] || l.Initial(m) != m.String()[:1] {
			t.Errorf("%v: %s, %s, %s", m, l.Month(m), l.ShortMonth(m), l.Initial(m))
		}
	}
	for _, s := range status.All {
		if l.Status(s) != s.String() {
			t.Errorf("status %q, in messages %q", l.Status(s), s)
		}
	}
	for _, c := range []classes.Class{{From: 2, To: 5}, {From: -2, To: 1.5}, {To: 2, OpenBegin: true}, {From: 10, OpenEnd: true}, {OpenBegin: true, OpenEnd: true}} {
		if l.Class(c) != c.String() {
			t.Errorf("class %q, in messages %q", l.Class(c), c)
		}
	}
}

// Day-first dates in a range put the month after the last of its days, as
// international style guides write them: "12–18 March", "26 February–4 March"
// (common practice, no source).
func TestDayFirst(t *testing.T) {
	l, err := wording.Of("", wording.DayFirst)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		from, to   season.Day
		begin, end bool
		want       string
	}{
		{71, 78, false, false, "12–18 Mar"}, {57, 64, false, false, "26 Feb–4 Mar"}, {358, 366, false, false, "24–31 Dec"},
		{365, 372, false, false, "31 Dec–6 Jan"}, {10, 11, false, false, "10 Jan"}, {10, 36, true, false, "before 5 Feb"},
		{162, 170, false, true, "11 Jun or later"}, {1, 366, true, true, "all year"},
	} {
		if got := l.Stretch(c.from, c.to, c.begin, c.end); got != c.want {
			t.Errorf("%v to %v is %q, want %q", float64(c.from), float64(c.to), got, c.want)
		}
	}
	if english := wording.English(); english.Date(71) != "Mar 12" {
		t.Errorf("one catalogue's order changed another's: %s", english.Date(71))
	}
}

func TestTogether(t *testing.T) {
	l := wording.English()
	for text, want := range map[string]string{
		"soil at 4 in (10 cm) warms to 55 °F (12.8 °C)": "soil at 4_in (10_cm) warms to 55_°F (12.8_°C)",
		"the week of Mar 12–18.":                        "the week of Mar_12–18.",
		"the week of 12–18 Mar.":                        "the week of 12–18_Mar.",
		"26 Feb–4 Mar or Mar 26–Apr 1":                  "26_Feb–4_Mar or Mar_26–Apr_1",
		"4 inches in 3 Marches, Marsh 3":                "4 inches in 3 Marches, Marsh 3",
		"":                                              "",
	} {
		if got := strings.ReplaceAll(l.Together(text), "\u00a0", "_"); got != want {
			t.Errorf("%q became %q, want %q", text, got, want)
		}
	}
}

func TestUnknownLanguageListsTheKnown(t *testing.T) {
	_, err := wording.Of("tlh", wording.MonthFirst)
	if err == nil || !strings.Contains(err.Error(), `"tlh"`) || !strings.Contains(err.Error(), "en (English)") {
		t.Errorf("error %v", err)
	}
	if (*wording.Language)(nil).Or().Tag != "en" {
		t.Error("no language is not English")
	}
}

func TestOrderWords(t *testing.T) {
	for _, o := range wording.Orders {
		text, err := o.MarshalText()
		var back wording.Order
		if err != nil || back.UnmarshalText(text) != nil || back != o {
			t.Errorf("%v came back as %v", o, back)
		}
	}
	var o wording.Order
	if err := o.UnmarshalText([]byte("year-first")); err == nil || !strings.Contains(err.Error(), "day-first") {
		t.Errorf("error %v", err)
	}
}
