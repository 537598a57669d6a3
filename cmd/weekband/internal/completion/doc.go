// Package completion completes weekband's command line in a shell.
//
// It takes the model of the command line and what is typed of one, and gives
// what may stand in place of its last word; and it has the scripts by which
// shells ask for that and show it. What only an edition knows it asks for by a
// function. It never opens a file.
//
// The tag complete of an argument or option says what its value is:
//
//	files .yaml .yml   files with these endings, or with any when none is named
//	folders off        folders, and the words that follow
//	words bash zsh     the words that follow
//	nothing            what cannot be foreseen
//	anything else      what the function gives under that name
package completion
