// Package daychart draws charts whose axes are days: the strip of a year with its
// statuses, the year of soil at a place, and the chart that holds a map against
// thermometers.
//
// It takes days and calendars and gives what stands on a page: the strip and the
// year of soil in a room of somebody's page, the chart of agreement as a page of
// its own. Days may lie beyond New Year: axes show them wherever they fall.
//
// It never knows maps, nor how days or temperatures were computed.
package daychart
