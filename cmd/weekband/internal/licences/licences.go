// Package licences holds the licences of all that the program is made of besides
// its own code: Go, the modules in go.mod that get into it, the fonts of pictures
// and the script that draws charts.
//
// It takes nothing and gives text. It never knows what the parts are used for.
package licences

import _ "embed"

//go:embed licences.txt
var text string

// Text lists every part with its version and the SPDX name of its licence, in
// the order of their paths, and then the licences themselves, each with the parts
// it holds for. A test makes it from the sources of the parts that are built in.
func Text() string { return text }
