// Package naming makes texts that people wrote fit to stand in one line of any
// output.
//
// It takes names and titles and gives them without characters that no reader
// sees but that change what others do or say, and tells which names of files
// one system or another keeps for itself.
//
// It never knows where a text comes from or goes to. Each output still escapes
// what its own format asks for.
package naming
