// Package regions holds named polygons: counties, states, climate divisions.
//
// It takes GeoJSON (RFC 7946) or TopoJSON bytes and gives a Set of Regions
// whose rings are closed, wound outer counter-clockwise and inside ±180° and
// ±90°, with a warning for everything that had to be mended. It writes GeoJSON
// too.
//
// It never knows rasters, weeks or what a region is used for.
package regions
