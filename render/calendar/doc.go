// Package calendar writes the weeks of a region as an iCalendar file, which
// readers import into the calendar they use.
//
// It takes a region's rows of the report and gives text as RFC 5545 wants it:
// an event that lasts whole days for every status and window. It never knows
// grids, pictures or the clock.
package calendar
