// Package skerry is an invented island of a few cells, on which examples and tests
// of other rooms run in a moment; no part of the program imports it.
//
// It takes a folder and writes a recipe and its data there, works them out, and
// builds an edition without pictures and pages. It never knows what is shown or
// tested on it.
//
// The island has 2 rows of 12 cells of 0.1°, the western six columns West Skerry, the
// eastern six East Skerry. Every cell is a tenth of a degree colder than its neighbour
// in the west and half a degree colder than the one in the south, so spring comes from
// the south-west.
package skerry
