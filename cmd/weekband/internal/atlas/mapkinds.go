package atlas

import (
	"context"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid"
	"weekband/grid/weeks"
	"weekband/render"
	"weekband/render/site"
	"weekband/render/wording"
)

// mapKind is all that a kind of map, drawn besides the typical week, needs.
type mapKind struct {
	// missing says why the input tells too little for the kind, "" when it tells
	// enough; nil when any does.
	missing func(in *inputs.Set, f *weeks.Field) string
	words   func(w *wording.Further) wording.Tale // nil when every map of the kind has its own
	draw    drawKind
}

// drawKind returns what draws each map of a kind of a window, in the order of the
// page. typical lends them its words and its ground without a day.
type drawKind func(ctx context.Context, s *studio, win tracing.Window, typical render.BandMap) []drawMap

// drawMap draws one map.
type drawMap func() (site.Map, error)

// mapKindOf returns what a kind of map needs.
func mapKindOf(kind recipe.Map) mapKind {
	switch kind {
	case recipe.Early:
		return mapKind{
			words: func(w *wording.Further) wording.Tale { return w.Early },
			draw:  weeksOf(kind, func(win tracing.Window) *grid.Raster[float32] { return win.Early }),
		}
	case recipe.Late:
		return mapKind{
			words: func(w *wording.Further) wording.Tale { return w.Late },
			draw:  weeksOf(kind, func(win tracing.Window) *grid.Raster[float32] { return win.Late }),
		}
	case recipe.Spread:
		return mapKind{
			missing: func(in *inputs.Set, _ *weeks.Field) string {
				return unless(in.SD != nil, "no map of the spread from year to year: the input holds no standard deviations, and the usual spread is the same everywhere")
			},
			words: func(w *wording.Further) wording.Tale { return w.Spread },
			draw: daysOf(kind, func(win tracing.Window) *grid.Raster[float32] {
				return tracing.Pooled(win.Field.Spread, win.Detail.Large)
			}),
		}
	case recipe.Error:
		return mapKind{
			missing: func(_ *inputs.Set, f *weeks.Field) string {
				return unless(f.Error != nil, "no map of the expected error: it is not known for this input")
			},
			words: func(w *wording.Further) wording.Tale { return w.Error },
			draw: daysOf(kind, func(win tracing.Window) *grid.Raster[float32] {
				return tracing.ExpectedErrors(win.Field, win.Detail.Large)
			}),
		}
	case recipe.Worth:
		return mapKind{draw: worthMaps}
	}
	panic("mapKindOf lacks the kind of map " + kind.String())
}

// unless returns the text when something is not so.
func unless(so bool, text string) string {
	if so {
		return ""
	}
	return text
}

// why says why the input tells too little for a kind of map of a window, "" when
// it tells enough.
func why(in *inputs.Set, kind recipe.Map, f *weeks.Field) string {
	if missing := mapKindOf(kind).missing; missing != nil {
		return missing(in, f)
	}
	return ""
}

// weeksOf draws days as weeks, in the classes of the typical week.
func weeksOf(kind recipe.Map, days func(win tracing.Window) *grid.Raster[float32]) drawKind {
	return func(_ context.Context, s *studio, win tracing.Window, typical render.BandMap) []drawMap {
		return []drawMap{func() (site.Map, error) { return s.weeksMap(win, kind, days(win), typical) }}
	}
}

// daysOf draws a number of days for every cell.
func daysOf(kind recipe.Map, days func(win tracing.Window) *grid.Raster[float32]) drawKind {
	return func(_ context.Context, s *studio, win tracing.Window, typical render.BandMap) []drawMap {
		return []drawMap{func() (site.Map, error) { return s.daysMap(win, kind, days(win), typical) }}
	}
}

// worthMaps draws what an application would still stop in each of some weeks.
func worthMaps(ctx context.Context, s *studio, win tracing.Window, typical render.BandMap) (list []drawMap) {
	for _, w := range worthWeeks(s.recipe, win.Field) {
		list = append(list, func() (site.Map, error) { return s.worthMap(ctx, win, w, typical) })
	}
	return list
}
