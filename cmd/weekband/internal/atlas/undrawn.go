package atlas

import (
	"slices"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/weeks"
)

// known reports whether the input tells enough for a kind of map of a window.
func known(in *inputs.Set, kind recipe.Map, f *weeks.Field) bool {
	switch kind {
	case recipe.Spread:
		return in.SD != nil
	case recipe.Error:
		return f.Error != nil
	}
	return true
}

// NoteUndrawn notes the maps that are asked for and cannot be drawn, of one field
// a window, and the letters that the fonts of pictures lack. What is known is the
// same for all windows.
func NoteUndrawn(in *inputs.Set, r *recipe.Recipe, fields []*weeks.Field) {
	noteLetters(in, r)
	for _, kind := range r.Maps {
		switch {
		case known(in, kind, fields[0]):
		case kind == recipe.Spread:
			in.Note("no map of the spread from year to year: the input holds no standard deviations, and the usual spread is the same everywhere")
		default:
			in.Note("no map of the expected error: it is not known for this input")
		}
	}
	for _, w := range r.WorthOf {
		if !slices.ContainsFunc(fields, func(f *weeks.Field) bool { return slices.Contains(worthWeeks(r, f), w) }) {
			in.Note("no map of the worth of %s: the week lies in no window's season", w)
		}
	}
}
