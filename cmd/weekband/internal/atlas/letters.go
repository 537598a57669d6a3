package atlas

import (
	"fmt"
	"slices"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/render/canvas"
)

// noteLetters tells which letters of names and titles the fonts of pictures
// lack.
func noteLetters(in *inputs.Set, r *recipe.Recipe) {
	texts := []string{r.Title, r.Credits}
	for _, w := range r.Windows {
		texts = append(texts, w.Title)
	}
	for _, inset := range r.Insets {
		texts = append(texts, inset.Title)
	}
	texts = append(texts, in.Areas.Titles()...)
	for _, p := range labelled(in.Places) {
		texts = append(texts, p.Name)
	}
	var lacking []rune
	var list []string
	for _, text := range texts {
		if letters := canvas.Lacking(text); len(letters) > 0 {
			lacking = append(lacking, letters...)
			list = append(list, text)
		}
	}
	if len(list) > 0 {
		slices.Sort(lacking)
		lacking = slices.Compact(lacking)
		in.Note("the fonts of pictures lack %s; they draw squares there, while pages, tables and data have the letters: %s", lettersOf(lacking), inputs.FirstOf(list))
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
