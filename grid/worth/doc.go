// Package worth says what an application on a given day would still stop:
// the share of a season's germination that comes after it, weakened by the
// days the treatment must last.
//
// It takes a year of soil temperatures, a trigger, a Treatment and a spread,
// and gives a share for every day; and from that the best day, what being
// early or late costs, when a second application is due, and what an
// overseeding leaves open. For the cells of a map an Ending gives the one
// thing asked of them, when catching up ends, from fewer moments of the year.
// It never knows grids, products or labels.
package worth
