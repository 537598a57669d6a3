// Package atlas draws the pictures of an edition: which there are, of what, and
// under which words.
//
// It takes windows cut into bands, rows of regions and inputs, and gives an Album
// of the files that it wrote. It never knows how a map is drawn, which package
// render does, nor what pages are made of it.
package atlas
