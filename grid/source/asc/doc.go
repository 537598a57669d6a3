// Package asc reads Esri ASCII grids.
//
// It takes the bytes of a file and a name for messages and gives its frame
// and its numbers, rows at a time. On opening it runs over the file once to
// count the values and note where rows begin: 8 bytes for each row, at most
// 8 MB. Beside that it holds a few buffers of 256 KB.
//
// It never opens files and never knows what the numbers measure.
package asc
