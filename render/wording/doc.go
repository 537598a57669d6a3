// Package wording holds the words and the ways of writing dates that stand on
// pictures, on the page and in the answers of lookups: one catalogue a
// language.
//
// It takes days, shares and counts and gives text. It never knows maps, fonts
// or files.
package wording
