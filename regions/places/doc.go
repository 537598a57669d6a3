// Package places reads the list of towns and villages a reader may look up,
// and finds one by what the reader types.
//
// It takes CSV and gives Places. It never knows grids, weeks or pages.
package places
