package recipe

import (
	"slices"
	"time"

	"weekband/grid/season"
)

// Map is a kind of map that is drawn of every window besides the typical week.
type Map uint8

const (
	Early  Map = iota // the week of an early year
	Late              // the week of a late year
	Spread            // standard deviation of the day from year to year
	Error             // expected error of the typical day
	Worth             // what an application in given weeks would still stop
)

// AllMaps lists the kinds in the order in which pages show them.
var AllMaps = [...]Map{Early, Late, Spread, Error, Worth}

// DefaultMaps are drawn when a recipe does not say.
var DefaultMaps = []Map{Early, Late, Error}

// noMaps is the word for none of them.
const noMaps = "none"

// mapWords are what a recipe calls the kinds.
var mapWords = [...]string{Early: "early", Late: "late", Spread: "spread", Error: "error", Worth: "worth"}

// String returns the word a recipe uses, which is also part of file names.
func (m Map) String() string { return mapWords[m] }

// mapsOf reads the kinds of maps, in the order of AllMaps.
func mapsOf(root *mapping) []Map {
	if root.find("maps") == nil {
		return slices.Clone(DefaultMaps)
	}
	words := root.texts("maps")
	if slices.Equal(words, []string{noMaps}) {
		return nil
	}
	known := map[string]Map{}
	valid := []string{noMaps}
	for _, m := range AllMaps {
		known[m.String()] = m
		valid = append(valid, m.String())
	}
	var out []Map
	for _, word := range words {
		m, ok := known[word]
		switch {
		case !ok && word == noMaps:
			root.problem("maps", "maps: none stands alone; leave it out to have the others")
		case !ok:
			root.problem("maps", "maps %q: want %s%s", word, orList(valid), suggestion(word, valid))
		case slices.Contains(out, m):
			root.problem("maps", "maps: %s stands twice", word)
		default:
			out = append(out, m)
		}
	}
	slices.SortFunc(out, func(a, b Map) int { return slices.Index(AllMaps[:], a) - slices.Index(AllMaps[:], b) })
	return out
}

// worthOf reads the weeks whose worth is mapped, by a date in each.
func worthOf(root *mapping, maps []Map) []season.Week {
	var out []season.Week
	for _, text := range root.texts("worth_of") {
		date, err := time.Parse("01-02", text)
		if err != nil {
			root.problem("worth_of", "worth_of %q: want a month and a day, such as 03-25", text)
			continue
		}
		week := season.OfDate(date.Month(), date.Day()).Week()
		if slices.Contains(out, week) {
			root.problem("worth_of", "worth_of: two dates lie in the week of %s", week)
			continue
		}
		out = append(out, week)
	}
	if len(out) > 0 && !slices.Contains(maps, Worth) {
		root.problem("worth_of", "worth_of names weeks, but maps does not list worth; add it there")
	}
	slices.Sort(out)
	return out
}
