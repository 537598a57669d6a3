// Package spread says how far the crossing day moves from year to year.
//
// It takes the year-to-year standard deviation of temperature and the slope
// of the annual curve, or nothing, and gives a standard deviation in days.
// It never knows grids or windows.
package spread
