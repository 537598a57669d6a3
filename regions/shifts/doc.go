// Package shifts tells how the weeks of regions moved from one edition to
// another.
//
// It takes a shift field, covers of regions, and what the tables of regions of
// both editions say, and gives one row a region. It never knows files, pictures
// or causes.
package shifts
