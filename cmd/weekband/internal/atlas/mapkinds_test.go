package atlas

import (
	"testing"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/render/wording"
)

// Every kind of map that a recipe may name can be drawn, and has words.
func TestEveryKindOfMapCanBeDrawn(t *testing.T) {
	further := &wording.English().Sentences.Further
	for _, kind := range recipe.AllMaps {
		k := mapKindOf(kind)
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
