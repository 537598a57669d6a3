// Package grid holds regular longitude–latitude grids and rasters on them.
//
// It takes boxes and counts and gives cells, their centres, outlines and true
// areas. Row 0 is the northernmost row, column 0 the westernmost column, and
// every position is longitude before latitude. A raster cell has a value or
// has none; no number stands for "missing".
//
// It never knows temperatures, weeks, file formats or colours.
package grid
