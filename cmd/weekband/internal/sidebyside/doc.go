// Package sidebyside runs weekband beside what one would script from
// general-purpose libraries for the same steps, on the same data: numpy and
// scipy for the year and its crossing, GDAL for bands, regions and files, and
// gstat for kriging.
//
//	.ci/sidebyside
//
// installs these where they are missing, and prints a table. It has only
// tests. Without arguments they are small and hold that both sides give the
// same answer; with -args -table FILE they are of the size of a country, and
// tell how long either side takes. Both use two threads, or two processes
// where a tool has no threads. Times are the best of some runs, apart from
// starting up and from what a row says is ready in memory.
package sidebyside
