// Package table reads CSV files (RFC 4180) whose columns are found by name.
//
// It takes text and a Form and gives rows: texts, keys and numbers within
// limits. What is wrong with the rows of several files is collected in
// Mistakes, so that one run shows all of it by file and line. It never knows
// what a column means.
package table
