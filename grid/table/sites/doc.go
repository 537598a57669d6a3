// Package sites reads the list of places where something is measured.
//
// It takes a table with the columns id, lat, lon, elev_m and, if there, name,
// and gives a List, which also finds the site a row of values belongs to. It
// never knows what is measured.
package sites
