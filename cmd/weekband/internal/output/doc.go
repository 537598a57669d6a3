// Package output writes what of an edition is neither picture nor page: tables,
// grids, bands, lookups, calendars and the manifest, and knows their names.
//
// It takes fields, bands and rows of regions, and gives files under a root. It
// never knows how they were worked out, nor what maps look like.
package output
