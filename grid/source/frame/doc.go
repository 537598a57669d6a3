// Package frame places the cells of a file on a grid.
//
// It takes the outer edge, steps and counts a file states and gives the
// grid, together with the order in which the file's rows and columns fill
// it: south-up files are turned over and longitudes past 180 are rolled.
//
// It never knows file formats or what the values mean.
package frame
