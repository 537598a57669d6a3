package render_test

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/render"
	"weekband/render/daychart"
	"weekband/render/press"
	"weekband/render/wording"
)

// greeked turns every Latin letter into a Greek one.
func greeked(text string) string {
	const letters = "αβγδεζηθικλμνξοπρστυφχψωϊϋ"
	greek := []rune(letters)
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return greek[r-'a']
		case r >= 'A' && r <= 'Z':
			return greek[r-'A']
		}
		return r
	}, text)
}

// greek turns all text in a catalogue, and all that its functions return, into
// Greek letters.
func greek(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			greek(v.Field(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			greek(v.Index(i))
		}
	case reflect.String:
		v.SetString(greeked(v.String()))
	case reflect.Func:
		old := reflect.ValueOf(v.Interface())
		v.Set(reflect.MakeFunc(v.Type(), func(args []reflect.Value) []reflect.Value {
			return []reflect.Value{reflect.ValueOf(greeked(old.Call(args)[0].String()))}
		}))
	}
}

// madeUp is a language without a Latin letter, English in Greek letters, with
// the day first.
func madeUp(t testing.TB) *wording.Language {
	t.Helper()
	l, err := wording.Of("en", wording.DayFirst)
	if err != nil {
		t.Fatal(err)
	}
	greek(reflect.ValueOf(l).Elem())
	return l
}

// greekTerritory is the island with its far parts and all names in Greek
// letters.
func greekTerritory(l *wording.Language) render.Territory {
	t := merrow.spread()
	t.Language = l
	for _, part := range []*render.Territory{&t, &t.Insets[0].Territory, &t.Insets[1].Territory} {
		for i := range part.Regions {
			part.Regions[i].Name = greeked(part.Regions[i].Name)
		}
		for i := range part.Places {
			part.Places[i].Name = greeked(part.Places[i].Name)
		}
	}
	for i := range t.Insets {
		t.Insets[i].Title = greeked(t.Insets[i].Title)
	}
	return t
}

func greekCaption(c press.Caption) press.Caption {
	c.Title, c.Subtitle, c.Source = greeked(c.Title), greeked(c.Subtitle), greeked(c.Source)
	for i := range c.Cautions {
		c.Cautions[i] = greeked(c.Cautions[i])
	}
	return c
}

// greekBands is a map whose labels are left to the language where they may be.
func greekBands(l *wording.Language) render.BandMap {
	m := overFar(merrow.bandMap(8))
	m.Caption = greekCaption(m.Caption)
	m.Uncertain.Label = ""
	for i, b := range m.Bands {
		m.Bands[i].Label = l.Span(b.From, b.To)
	}
	m.Undated = append(m.Undated, render.Undated{Reason: render.Flat, Shape: m.Undated[0].Shape})
	return m
}

func greekFrame(l *wording.Language, i int) render.StatusMap {
	m := merrow.frame(i, 6)
	m.Caption, m.Week = greekCaption(m.Caption), l.Week(season.Week(8+i))
	return m
}

// greekPages draws one page of every kind.
func greekPages(t *testing.T, l *wording.Language) map[string]*press.Page {
	t.Helper()
	land := greekTerritory(l)
	a := must(render.NewAtlas(land, 900))
	m := greekBands(l)
	frames := []render.StatusMap{greekFrame(l, 2), greekFrame(l, 3)}
	vast := greekTerritory(l)
	vast.Insets[0].Extent = grid.Box{West: -70, South: -10, East: 10, North: 40} // too wide for an honest scale
	values := merrow.valueMap(5, false)
	values.Caption, values.Heading = m.Caption, greeked("Days")
	for i := range values.Undated {
		values.Undated[i].Label = ""
	}
	_, h := handoutOf(merrow, 70)
	h.Map, h.Sure, h.Guide, h.Address = m, greeked(h.Sure), []string{greeked(h.Guide[0])}, ""
	for i := range h.Rows {
		h.Rows[i].Name, h.Rows[i].Words = greeked(h.Rows[i].Name), greeked(h.Rows[i].Words)
	}
	fewer := h
	fewer.Rows = h.Rows[:9]
	days := make([]float64, season.YearDays)
	for i := range days {
		days[i] = 11 - 13*math.Cos(2*math.Pi*float64(i-20)/season.YearDays)
	}
	sheet := render.RegionSheet{
		Caption: m.Caption, Map: m, Shape: merrow.territory().Regions[0].Shape, Guide: h.Guide, Sure: h.Sure, Chart: greeked("Soil"),
		Soil: daychart.SoilYear{Days: days, Spread: 3, Threshold: 12.8, Calendar: status.Calendar{AheadFrom: 60, OntimeFrom: 81, OntimeTo: 118, CatchupTo: 160}},
	}
	chart := agreement(60, 60, 130, 8)
	chart.Language, chart.Caption = l, greekCaption(chart.Caption)
	for i := range chart.Points {
		chart.Points[i].Name = greeked(chart.Points[i].Name)
	}
	return map[string]*press.Page{
		"bands": must(a.Bands(m)).Page, "vast inset": must(must(render.NewAtlas(vast, 900)).Bands(m)).Page, "week": a.Status(frames[0]).Page, "sheet": a.Sheet(m.Caption, frames), "values": must(a.Values(values)).Page,
		"handout": must(a.Handout(h)).Page, "shorter handout": must(a.Handout(fewer)).Page, "region": must(a.RegionSheet(sheet)).Page, "chart": must(chart.Page(900)),
		"stacked chart": must(stackedChart(l).Page(900)),
	}
}

// stackedChart holds dots on one spot, so that a name speaks of more.
func stackedChart(l *wording.Language) daychart.Agreement {
	m := oneSpot()
	m.Language, m.Caption = l, press.Caption{}
	for i := range m.Points {
		m.Points[i].Name = fmt.Sprintf("Ω %d", i)
	}
	return m
}

// No English word is left on any page of another language: what stands in
// plain Latin letters is the symbol of a unit.
func TestNoEnglishInAnotherLanguage(t *testing.T) {
	l := madeUp(t)
	plain := regexp.MustCompile(`[A-Za-z]+`)
	seen := map[string]bool{}
	for name, p := range greekPages(t, l) {
		if len(p.Layout.Boxes) < 12 {
			t.Errorf("%s: %d texts", name, len(p.Layout.Boxes))
		}
		for _, b := range p.Layout.Boxes {
			seen[b.Text] = true
			for _, word := range plain.FindAllString(b.Text, -1) {
				if word != "F" && word != "C" {
					t.Errorf("%s: %q in %q (kind %d)", name, word, b.Text, b.Kind)
				}
			}
		}
	}
	for what, want := range map[string]string{
		"heading": l.Legend.WeekGoodFor, "status": l.Legend.Statuses[status.OnTime], "inset": l.Map.OtherScale, "weeks": l.Handout.EveryRegion,
		"axis": l.Chart.Across, "band": l.Chart.Within[0].Beside, "scale bar": l.Map.ScaleBar(200), "date": "12–18 νβσ",
	} {
		if want = strings.ReplaceAll(want, "νβσ", l.Dates.Short[2]); !seen[want] {
			t.Errorf("no page says %q (%s)", want, what)
		}
	}
}
