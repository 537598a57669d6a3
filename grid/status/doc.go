// Package status sorts the weeks of the year at a place into five: resting,
// ahead of time, on time, catching up and past.
//
// It takes one soil year and a Window and gives a Calendar of four days. It
// never knows grids, regions or pictures.
package status
