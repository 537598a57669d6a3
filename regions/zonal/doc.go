// Package zonal measures rasters inside regions.
//
// It takes a region's shape and a grid and gives a Coverage: which cells the
// region covers and what share of each. From a coverage and rasters it gives
// shares of area and quantiles, weighted by the area of every cell on the
// ellipsoid. A Sweep gives the same cover by blocks of rows, and a Tally
// sums up blocks, for grids that are never held as a whole.
//
// It never knows file formats, colours or how a raster came about.
package zonal
