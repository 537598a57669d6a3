// Package answer answers for a place, a region or a position from an edition that
// stands, as the command lookup prints it.
//
// It takes the folder of an edition, what a user typed and readings of their own
// soil thermometer, and gives a Reply for people or programs. It never knows
// recipes or normals.
package answer
