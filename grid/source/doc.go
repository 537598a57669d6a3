// Package source reads gridded files: Esri ASCII grids, GeoTIFFs and NetCDF
// classic, told apart by their first bytes.
//
// It takes paths and gives numbers on a regular grid of longitudes and
// latitudes, rows at a time: Layers hands out a file's own numbers, Normals
// joins months into temperatures in °C. It is the only place that knows
// nodata values, rows from the south and longitudes past 180.
//
// It never knows regions, thresholds or what is made of the temperatures.
package source
