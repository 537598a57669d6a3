package wording

import "weekband/grid/classes"

// Shift is the words of a map of how far weeks moved from one edition, or
// window, to another.
type Shift struct {
	Editions func(event, newer, older string) string         // what the map shows, of two editions
	Events   func(after, newer, before, older string) string // the same, of two that map different things
	Windows  func(second, first string) string               // what it shows, of two windows by their titles
	OfYear   func(year int) string                           // an edition within a sentence
	OfPeriod func(period string) string                      // one that only the period of its normals tells from the other
	Newer    string                                          // one that nothing tells from the other
	Older    string
	Compared func(edition string) string // a sentence about the older edition; edition is one of Sentences.Edition

	Heading string                                 // of the legend
	Days    func(c classes.Class) string           // a class of days later, earlier when negative
	Weeks   func(c classes.Class, step int) string // one that is step weeks wide and about a whole number of steps from none
	Gained  string                                 // ground that has a week only in the newer one, in a legend
	Lost    string                                 // only in the older one
	Undated string                                 // in neither
	Only    func(window string) string             // ground that has a week only in one of two windows, by its title
	Later   string                                 // heading of a legend of days, of two windows
	Apart   string                                 // ground that only one covers
}
