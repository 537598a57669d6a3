package main

import (
	"fmt"
	"slices"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/regions/naming"
	"weekband/regions/places"
	"weekband/render"
)

// tidyPlaces makes one line of the names of places, and leaves out those that
// nothing is left of.
func (in *inputs) tidyPlaces(path string) {
	changed := 0
	first := ""
	in.places = slices.DeleteFunc(in.places, func(p places.Place) bool { return naming.Plain(p.Name) == "" })
	for i := range in.places {
		p := &in.places[i]
		for _, text := range []*string{&p.Name, &p.Code, &p.Region} {
			line := naming.Plain(*text)
			if line == *text {
				continue
			}
			if changed++; changed == 1 {
				first = line
			}
			*text = line
		}
	}
	if changed > 0 {
		in.notes = append(in.notes, fmt.Sprintf("%s: %d × names or codes held control characters, which were left out; first in %q", path, changed, first))
	}
}

// noteLetters tells which letters of names and titles the fonts of pictures
// lack.
func (in *inputs) noteLetters(r *recipe.Recipe) {
	texts := []string{r.Title, r.Credits}
	for _, w := range r.Windows {
		texts = append(texts, w.Title)
	}
	for _, inset := range r.Insets {
		texts = append(texts, inset.Title)
	}
	texts = append(texts, in.areas.Titles()...)
	for _, p := range labelled(in.places) {
		texts = append(texts, p.Name)
	}
	var lacking []rune
	var list []string
	for _, text := range texts {
		if letters := render.Lacking(text); len(letters) > 0 {
			lacking = append(lacking, letters...)
			list = append(list, text)
		}
	}
	if len(list) > 0 {
		slices.Sort(lacking)
		lacking = slices.Compact(lacking)
		in.notes = append(in.notes, fmt.Sprintf("the fonts of pictures lack %s; they draw squares there, while pages, tables and data have the letters: %s", lettersOf(lacking), firstOf(list)))
	}
}

// lettersOf lists letters, of many the first.
func lettersOf(letters []rune) string {
	const most = 12
	if len(letters) <= most {
		return string(letters)
	}
	return fmt.Sprintf("%d letters, such as %s", len(letters), string(letters[:most]))
}
