package comparison

import (
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
)

func TestLooksOfAManifest(t *testing.T) {
	l, err := looksOf(map[string]string{"size": "1600", "insets[1].title": "Far Isles", "insets[1].box": "[-50.5, 30, -49, 31.25]", "insets[2].title": "Rock", "insets[2].box": "[1, 2, 3, 4]"})
	want := recipe.Inset{Title: "Far Isles", Box: grid.Box{West: -50.5, South: 30, East: -49, North: 31.25}}
	if err != nil || l.Size != 1600 || len(l.Insets) != 2 || l.Insets[0] != want || l.Insets[1].Title != "Rock" {
		t.Errorf("%+v, %v", l, err)
	}
	if l, err := looksOf(nil); err != nil || l.Size != recipe.DefaultSize || l.Insets != nil {
		t.Errorf("of an older edition: %+v, %v", l, err)
	}
	for _, broken := range []map[string]string{{"size": "wide"}, {"size": "99999"}, {"insets[1].box": "everything"}} {
		if _, err := looksOf(broken); err == nil || !strings.Contains(err.Error(), "want ") {
			t.Errorf("%v: %v", broken, err)
		}
	}
}
