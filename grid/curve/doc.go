// Package curve turns normals into the annual curve: the daily mean
// temperature of a typical year, periodic and smooth.
//
// It takes 12 monthly means or 365 daily normals and gives a Curve, which tells
// its value at any moment and its samples: a Year of every day's, or a Sketch or
// a Fine of fewer at even moments. It never knows cells, soil or thresholds.
package curve
