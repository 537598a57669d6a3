// Package carto projects positions on the earth to points on a map and back.
//
// It takes longitudes and latitudes and gives metres east and north of an
// origin on the map, and pixels counted from the top left of an image. Every
// projection works on an ellipsoid of revolution or a sphere. Maps of weeks
// use an equal-area projection, which Choose picks for an extent: a reader
// compares shaded areas.
//
// It never knows what is drawn.
package carto
