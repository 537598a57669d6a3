// Package worth says what an application on a given day would still stop:
// the share of a season's germination that comes after it, weakened by the
// days the treatment must last.
//
// It takes a year of soil temperatures, a trigger, a half-life and a spread,
// and gives a share for every day. It never knows grids, products or labels.
package worth
