// Package profile sums up what a gridded data set holds, and says what in it
// looks wrong.
//
// It takes an open data set and gives statistics of its layers and a list of
// suspicions. It never knows soil, weeks or what the data are for beyond
// being a year of temperatures.
package profile
