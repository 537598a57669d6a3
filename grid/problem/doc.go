// Package problem gathers what is wrong with all the files of a run, so that
// one run shows all of it.
//
// It takes errors and gives one Report that writes them by file and line, at
// most 20 of them, counts the rest and puts warnings behind. It opens no file
// and never knows what one holds.
package problem
