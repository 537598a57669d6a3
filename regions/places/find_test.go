package places_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"weekband/regions/places"
)

// towns returns places by name and, after #, rank.
func towns(names ...string) (list []places.Place) {
	for _, n := range names {
		name, rank, _ := strings.Cut(n, "#")
		p := places.Place{Name: name}
		fmt.Sscan(rank, &p.Rank)
		list = append(list, p)
	}
	return list
}

// Best first: the start of a name, then a later word; of as good ones the
// larger, then by name; unranked ones last.
func TestFindPutsTheBestFirst(t *testing.T) {
	list := towns("Upper Elmere#1", "Elmford", "Elmerton#3", "Elmere Bay#2", "Élmdon#3", "Selm#1", "Elmstead")
	for query, want := range map[string]string{
		"elm":        "Elmere Bay, Élmdon, Elmerton, Elmford, Elmstead, Upper Elmere",
		"elmere":     "Elmere Bay, Upper Elmere",
		"elmere b":   "Elmere Bay",
		"bay":        "Elmere Bay",
		"lem":        "",             // three letters are almost the beginning of too much
		"elmretno":   "Elmerton",     // two pairs swapped
		"elmfodr":    "Elmford",      // one pair
		"elmstae":    "Elmstead",     // almost its beginning
		"uper elmer": "Upper Elmere", // one letter missing, of a beginning
		"xelmford":   "Elmford",      // one too many
		"elxxxx":     "",
	} {
		found, exact := places.Find(list, query)
		var names []string
		for _, p := range found {
			names = append(names, p.Name)
		}
		if got := strings.Join(names, ", "); got != want || exact {
			t.Errorf("Find(%q) = %s, %v; want %s", query, got, exact, want)
		}
	}
}

// The order does not depend on the list's.
func TestFindDoesNotDependOnTheList(t *testing.T) {
	list := towns("Elm#2", "Elm#1", "Elm", "Elmo", "Elma", "Elm Bay")
	list[1].Code, list[2].Code = "b", "a"
	want, _ := places.Find(list, "elm")
	slices.Reverse(list)
	if got, _ := places.Find(list, "elm"); !slices.Equal(got, want) || len(got) != 3 || got[0].Rank != 1 || got[2].Rank != 0 {
		t.Errorf("%v, then %v", want, got)
	}
}

func TestStarts(t *testing.T) {
	p := places.Place{Name: "Saint Aldwyn, Upper", Code: "AL-7"}
	if got := strings.Join(p.Starts(), "|"); got != "saint aldwyn upper|aldwyn upper|upper|al 7" {
		t.Error(got)
	}
	if got := (places.Place{Name: "…"}).Starts(); len(got) != 0 {
		t.Errorf("%q", got)
	}
}
