// Package arcs holds polygons as shared border lines.
//
// It takes polygons that share vertices and gives their arcs: lines between
// the points where three or more of them meet, each stored once however many
// polygons it bounds. Thinning works arc by arc, so neighbours still share
// their border exactly. Rings can be sorted back into polygons with holes.
//
// It never knows what the polygons stand for, which units their coordinates
// have, or files. The y axis points up: a counter-clockwise ring has a
// positive area.
package arcs
