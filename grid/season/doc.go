// Package season is the calendar of a typical year: 365 days, no leap day,
// no weekdays, and 52 fixed weeks counted from 1 January.
//
// It takes months and days and gives a Day, a Week or the dates they print
// as. It never knows years, time zones or the clock.
package season
