package site

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"math"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"

	"weekband/grid/season"
	"weekband/regions/places"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/wording"
)

//go:embed index.html.tmpl assets/style.css
var files embed.FS

// page is the template, its dates in English until Write puts those of the
// edition in.
var page = template.Must(template.New("index.html.tmpl").Funcs(functions(wording.English())).ParseFS(files, "index.html.tmpl"))

// functions returns what the template calls.
func functions(l *wording.Language) template.FuncMap {
	return template.FuncMap{
		"strip":   strip,
		"percent": percent,
		"km2":     km2,
		"span":    l.Span,
		"byName":  byName,
		"undated": func(s zonal.Summary) string { return l.Sentences.Window.NoWeek(report.Why(s)) },
		"without": without,
		"valued":  valued,
		"weekOf":  func(d season.Day) string { return l.Week(d.Week()) },
		"week":    l.Week,
		"day":     l.Date,
		"year":    func() string { return l.Dates.Year },
	}
}

// Write writes index.html and its assets.
func Write(root *os.Root, e Edition) error {
	var b bytes.Buffer
	e.Language = e.Language.Or()
	t, err := page.Clone()
	if err != nil {
		return fmt.Errorf("index page: %w", err)
	}
	if err := t.Funcs(functions(e.Language)).Execute(&b, e); err != nil {
		return fmt.Errorf("index page: %w", err)
	}
	if err := root.WriteFile("index.html", b.Bytes(), 0o644); err != nil {
		return fmt.Errorf("index page: %w", err)
	}
	if err := root.MkdirAll("assets", 0o755); err != nil {
		return fmt.Errorf("assets: %w", err)
	}
	entries, err := files.ReadDir("assets")
	if err != nil {
		return fmt.Errorf("assets: %w", err)
	}
	for _, entry := range entries {
		name := path.Join("assets", entry.Name())
		data, err := files.ReadFile(name)
		if err != nil {
			return fmt.Errorf("assets: %w", err)
		}
		if err := root.WriteFile(name, data, 0o644); err != nil {
			return fmt.Errorf("assets: %w", err)
		}
	}
	return nil
}

// percent writes a share as "12 %", and a small one as "under 1 %".
func percent(share float64) string {
	switch {
	case share <= 0:
		return "0 %"
	case share < 0.01:
		return "under 1 %"
	}
	return strconv.Itoa(int(math.Round(share*100))) + " %"
}

// km2 writes an area with a thin space between thousands.
func km2(v float64) string {
	digits := strconv.FormatFloat(v, 'f', 0, 64)
	var b strings.Builder
	for i, d := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 {
			b.WriteRune('\u2009')
		}
		b.WriteRune(d)
	}
	return b.String()
}

// byName returns the rows in the order of their names, in which a reader
// looks for one.
func byName(rows []report.Row) []report.Row {
	rows = slices.Clone(rows)
	slices.SortStableFunc(rows, func(a, b report.Row) int { return strings.Compare(places.Fold(a.Name), places.Fold(b.Name)) })
	return rows
}

// without lists the shares of a region's ground that have no week.
func without(s zonal.Summary) string {
	var parts []string
	for _, p := range []struct {
		share float64
		words string
	}{{s.AlwaysShare, "of it always above"}, {s.NeverShare, "of it never crosses"}, {s.FlatShare, "of it hovers near the threshold"}} {
		if p.share > 0.005 {
			parts = append(parts, percent(p.share)+" "+p.words)
		}
	}
	return strings.Join(parts, ", ")
}

// valued reports whether any region tells what applications come to.
func valued(rows []report.Row) bool {
	return slices.ContainsFunc(rows, func(r report.Row) bool { return r.Value != nil })
}
