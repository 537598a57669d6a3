// Package bands turns a raster of days into polygons, one for each band
// between two levels, and for each class of ground that has no day.
//
// It takes a raster on a longitude–latitude grid and ascending breaks and
// gives valid RFC 7946 polygons with holes. Together they fill exactly the
// cells that have a day or a class, and neighbours share their border vertex
// for vertex.
//
// How: every cell with a day is split into four triangles by its centre and
// corners; the centre has the cell's day, a corner the mean of the days
// around it. On triangles the day is linear, so the contours are straight
// pieces that fit together across cells. The pieces, and the sides of cells
// where the field ends, are chained into arcs between junctions. Every arc is
// smoothed and thinned once, for both of its sides.
//
// It never knows what a day means, colours, or file formats.
package bands
