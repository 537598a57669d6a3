// Package regrid brings temperatures and elevations from one grid to
// another.
//
// It takes rasters or rows of normals and a Grid and gives values on that
// Grid: means where cells grow, bilinear interpolation where they shrink, with
// temperatures carried to the height of the finer terrain at the local lapse
// rate. It never knows weeks: those are never interpolated.
package regrid
