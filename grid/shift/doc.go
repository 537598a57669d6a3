// Package shift tells how the crossing of a window moved from one edition to
// another, or from one window to another, cell by cell.
//
// It takes the days of both and the reasons for having none, and gives how
// many days and weeks later the second comes, what became of ground without a
// day, sums by area, and the classes of a map. Days are compared where they
// stand and never interpolated. It never knows files, regions or causes.
package shift
