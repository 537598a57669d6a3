// Package soil turns a year of air temperatures into a year of soil
// temperatures at a depth under short grass.
//
// It takes a curve.Year of air and a Model and gives a curve.Year of soil, or
// a curve.Curve of air and gives a Course, the same year in closed form.
// It never knows where the cell is, nor any threshold.
package soil
