// Package nearest finds the word that someone who mistyped meant.
//
// It takes what was typed and the words that would have been valid, and gives
// the nearest of them, or none. It never knows what the words are for.
package nearest
