// Package inputs opens what a recipe names: normals, stations, terrain, soil
// calibration, regions, places and the logo.
//
// It takes a recipe and the folder it lies in, and gives a Set, checked as far as
// that goes before the long work, with the sums of all files, or a report of all
// that is wrong. It never knows what becomes of any of it.
package inputs
