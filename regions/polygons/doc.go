// Package polygons reads and writes files of regions.
//
// It takes GeoJSON (RFC 7946) or TopoJSON bytes and gives a Set of Regions whose
// rings are closed, wound outer counter-clockwise and inside ±180° and ±90°, with
// a warning for everything that had to be mended, or an error for what could be
// meant in two ways. It writes GeoJSON too. It never knows rasters, weeks or what
// a region is used for.
package polygons
