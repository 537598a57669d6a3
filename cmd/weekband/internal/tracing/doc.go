// Package tracing cuts the field of each window into shapes, as coarse as what
// they are drawn or written into can show.
//
// It takes fields and gives a Window with its bands, and rasters of blocks of
// cells for other shapes. It never knows colours, words or files.
package tracing
