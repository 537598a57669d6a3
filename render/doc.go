// Package render draws maps of week bands, of week-by-week status and of
// quantities, and all that has such a map on it: sheets, handouts, cards, and
// the small maps of each region.
//
// It takes outlines, places, a projection, and bands as polygons with their
// dates, and gives pages: title, map, legend with shares of area, scale bar,
// source and cautions, laid out for a width in pixels, and where on them
// positions stand. Package press makes pictures of them; what is drawn on a
// plane, how ground looks, where names stand and charts of days have rooms of
// their own beside it.
//
// It never knows how a week was computed, nor disks or clocks.
package render
