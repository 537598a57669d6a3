// Package units turns text into temperatures, differences, depths and
// numbers of days, and back.
//
// The core holds degrees Celsius; Fahrenheit is only a way of writing, and
// this is the only place that knows how. It never knows grids or calendars.
package units
