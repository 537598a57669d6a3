// Package curve turns normals into the annual curve: the daily mean
// temperature of a typical year, periodic and smooth.
//
// It takes 12 monthly means or 365 daily normals and gives a Curve, or a
// Year of samples of it: every day's, or those at even moments. It never knows cells, soil or thresholds.
package curve
