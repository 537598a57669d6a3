package atlas

import (
	"math"
	"testing"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/classes"
	"weekband/render/wording"
)

// Every kind of map that a recipe may name can be drawn, and has words.
func TestEveryKindOfMapCanBeDrawn(t *testing.T) {
	further := &wording.English().Sentences.Further
	for _, kind := range recipe.AllMaps {
		k, ok := knownKind(kind)
		if !ok {
			t.Errorf("mapKindOf has no case for %v", kind)
			continue
		}
		if k.draw == nil {
			t.Errorf("%v: nothing draws it", kind)
		}
		if k.words == nil {
			continue // every map has its own
		}
		if w := k.words(further); w.Title == "" || w.Heading == "" || w.Unit == "" || w.Shows == nil {
			t.Errorf("%v: words are missing in %+v", kind, w)
		}
	}
}

// knownKind is mapKindOf; ok is false for a kind that it lacks.
func knownKind(kind recipe.Map) (k mapKind, ok bool) {
	defer func() { ok = recover() == nil }()
	return mapKindOf(kind), true
}

// Ranges have the decimals that their classes need, 0.2 wide or 5.
func TestDecimalsOfRanges(t *testing.T) {
	for width, want := range map[float64]int{5: 0, 1: 0, 0.5: 1, 0.2: 1, 0.05: 2} {
		if got := decimalsOf([]classes.Class{{From: math.Inf(-1), To: width}, {From: width, To: 2 * width}, {From: 2 * width, To: math.Inf(1)}}); got != want {
			t.Errorf("classes %g wide: %d decimals, want %d", width, got, want)
		}
	}
}
