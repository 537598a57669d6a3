// Package render draws maps of week bands and of week-by-week status, and the
// chart that holds a map against thermometers.
//
// It takes outlines, places, a projection, and bands as polygons with their
// dates, and gives finished pages: title, map, legend with shares of area,
// scale bar, source and cautions, laid out for a width in pixels. A page is
// drawn through the Canvas interface, which has a back end each for PNG, SVG and
// PDF; the weeks of a season are painted in one palette and become pictures and
// an animation of the same pixels.
//
// It never knows how a week was computed, nor disks or clocks.
package render
