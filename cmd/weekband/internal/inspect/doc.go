// Package inspect tells what a data set holds and what in it looks wrong.
//
// It takes files and gives a finding: facts, layers, notes and suspicions. It
// never knows of a recipe, and nothing it finds is an error of its own.
package inspect
