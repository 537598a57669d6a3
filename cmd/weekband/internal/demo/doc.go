// Package demo holds an invented territory to try the program on: a recipe
// and the data it names, embedded in the program.
//
// It takes nothing and gives a file system with the recipe in it. It never
// knows how they are read, nor where a run writes. The files are made by
// cmd/territory; change them there and run
//
//	go run ./cmd/territory
package demo
