package chart

import (
	_ "embed"
	"html/template"
	"strings"
)

//go:embed figure.html.tmpl
var figureText string

// Templates defines the template "chart", a Chart as the figure that pages
// hold, for the pages to add to theirs.
var Templates = template.Must(template.New("charts").Parse(figureText))

// HTML returns the chart as the figure that pages hold: title, text, key and
// table for all, and the options for the script.
func (c Chart) HTML() (template.HTML, error) {
	var b strings.Builder
	if err := Templates.ExecuteTemplate(&b, "chart", c); err != nil {
		return "", err
	}
	return template.HTML(b.String()), nil
}

// Script returns the option as it stands in a page: JSON of ours, compact and
// with <, > and & escaped, which a template would go through again.
func (c Chart) Script() template.JS { return template.JS(c.Option) }
