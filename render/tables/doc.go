// Package tables writes the region and cell tables of an edition as CSV and
// as a spreadsheet.
//
// It takes report rows and week fields and gives bytes. It never knows how a
// day was computed, nor the disk.
package tables
