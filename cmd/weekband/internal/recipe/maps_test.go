package recipe_test

import (
	"slices"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/season"
)

func TestMaps(t *testing.T) {
	for name, c := range map[string]struct {
		text  string
		maps  []recipe.Map
		weeks []season.Week
	}{
		"by default":       {"", recipe.DefaultMaps, nil},
		"none":             {"maps: none", nil, nil},
		"an empty list":    {"maps: []", nil, nil},
		"one":              {"maps: spread", []recipe.Map{recipe.Spread}, nil},
		"in any order":     {"maps: [worth, early]", []recipe.Map{recipe.Early, recipe.Worth}, nil},
		"worth of weeks":   {"maps: [worth]\nworth_of: [04-20, 03-25]", []recipe.Map{recipe.Worth}, []season.Week{12, 16}},
		"the leap day":     {"maps: [worth]\nworth_of: 02-29", []recipe.Map{recipe.Worth}, []season.Week{9}},
		"the last, longer": {"maps: [worth]\nworth_of: 12-31", []recipe.Map{recipe.Worth}, []season.Week{52}},
	} {
		r, err := recipe.Decode([]byte(good+c.text+"\n"), "good.yaml")
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if !slices.Equal(r.Maps, c.maps) || !slices.Equal(r.WorthOf, c.weeks) {
			t.Errorf("%s: %v of %v, want %v of %v", name, r.Maps, r.WorthOf, c.maps, c.weeks)
		}
	}
}

func TestWrongMaps(t *testing.T) {
	for text, want := range map[string]string{
		"maps: [earyl]":                        `maps "earyl": want early, error, late, none, spread or worth; did you mean "early"?`,
		"maps: [none, late]":                   "none stands alone",
		"maps: [late, late]":                   "late stands twice",
		"maps: {late: yes}":                    "want one value or a list",
		"maps: [worth]\nworth_of: [13-40]":     `worth_of "13-40": want a month and a day`,
		"maps: [early]\nworth_of: 03-25":       "add it there",
		"worth_of: 03-25":                      "add it there",
		"maps: worth\nworth_of: [03-25,03-24]": "two dates lie in the week of Mar 19–25",
	} {
		_, err := recipe.Decode([]byte(good+text+"\n"), "wrong.yaml")
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

// Whatever order a recipe has, the kinds come in that of AllMaps, which lists
// every kind that has a word.
func TestMapsComeInTheOrderOfPages(t *testing.T) {
	var words []string
	for _, m := range slices.Backward(recipe.AllMaps[:]) {
		words = append(words, m.String())
	}
	r, err := recipe.Decode([]byte(good+"maps: ["+strings.Join(words, ", ")+"]\n"), "good.yaml")
	if err != nil || !slices.Equal(r.Maps, recipe.AllMaps[:]) {
		t.Errorf("%v (%v), want %v", r.Maps, err, recipe.AllMaps)
	}
}

// The reference tells of every kind.
func TestReferenceTellsOfEveryMap(t *testing.T) {
	for _, k := range recipe.Keys() {
		if k.Path != "maps" {
			continue
		}
		for _, m := range recipe.AllMaps {
			if word := "`" + m.String() + "`"; !strings.Contains(k.Value, word) || !strings.Contains(k.Meaning, word) {
				t.Errorf("what reference.txt says of maps lacks %s", word)
			}
		}
		return
	}
	t.Error("reference.txt lacks maps")
}
