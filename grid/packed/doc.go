// Package packed unpacks gzip that was not made to fill a disk or memory.
//
// It takes packed bytes and gives the text in them, or an error as soon as the
// text has grown beyond all proportion. It never knows what the text is.
package packed
