// Package lettering puts names on a picture so that none covers another.
//
// It takes names with the ground or the place that each belongs to, and a frame
// with what is to be kept free, and gives each name its place, its size and its
// lines: inside its region where it fits, else beside it with a line that leads
// there; around the dot of a place; and says which names found no room.
//
// It never knows maps and their projections, nor who draws the names.
package lettering
