// Package verdict sets an edition beside soil thermometers, as the command verify
// prints it.
//
// It takes the folder of an edition and a table of readings, and gives Verdicts
// for people or programs, and a picture. It never knows recipes or normals.
package verdict
