// Package recipe reads the YAML recipe that describes a run.
//
// It takes the text of a recipe and gives a Recipe whose quantities are
// parsed and whose defaults are filled in, or a list of all that is wrong
// with it, each with its place. It opens no file but the recipe itself and
// never knows what a run does.
package recipe
