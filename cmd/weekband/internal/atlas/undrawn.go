package atlas

import (
	"slices"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/weeks"
)

// NoteUndrawn notes the maps that are asked for and cannot be drawn, of one field
// a window, and the letters that the fonts of pictures lack. What is known is the
// same for all windows.
func NoteUndrawn(in *inputs.Set, r *recipe.Recipe, fields []*weeks.Field) {
	noteLetters(in, r)
	for _, kind := range r.Maps {
		if note := why(in, kind, fields[0]); note != "" {
			in.Note("%s", note)
		}
	}
	for _, w := range r.WorthOf {
		if !slices.ContainsFunc(fields, func(f *weeks.Field) bool { return slices.Contains(worthWeeks(r, f), w) }) {
			in.Note("no map of the worth of %s: the week lies in no window's season", w)
		}
	}
}
