// Package report sums up every region under every window: the rows of the
// region table.
//
// It takes week fields and the cover of regions and gives Rows. It never
// knows file formats or pictures.
package report
