// Package classes cuts the values of a raster into the few round classes that
// the legend of a map holds.
//
// It takes a raster of any continuous quantity and gives classes with limits
// of 1, 2 or 5 times a power of ten, their areas and their words. It never
// knows what the values mean, nor colours.
package classes
