// Package phrase puts the sentences together that an edition says of itself in
// more than one place: what is measured, what a map shows, how sure it is.
//
// It takes recipes, fields and rows of regions, and gives sentences in the words
// of a render/wording language. It never knows where they are printed.
package phrase
