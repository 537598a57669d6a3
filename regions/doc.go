// Package regions holds named polygons: counties, states, climate divisions.
//
// It takes Regions, whose rings are closed, wound outer counter-clockwise and
// inside ±180° and ±90°, and tells their area, neighbours, titles, a point inside
// and which of them holds a point. It never knows files, rasters, weeks or what a
// region is used for.
package regions
