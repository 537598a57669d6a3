// Package table reads CSV files (RFC 4180) whose columns are found by name.
//
// Files of other programs that can be meant in one way only, such as with
// semicolons between the columns, are read too, and a note says so.
//
// It takes text and a Form and gives rows: texts, keys and numbers within
// limits. What is wrong with the rows of several files is collected in
// Mistakes, so that one run shows all of it by file and line. It never knows
// what a column means.
package table
