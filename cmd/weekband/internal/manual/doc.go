// Package manual is what weekband tells about itself: a page for every
// command and topic, to read on a terminal or as a man page, and what is wrong
// with a command line.
//
// It takes the model of the command line, from which a page has its usage,
// arguments and options, and the texts embedded here, which say the rest; the
// page of recipes comes from the reference in package recipe. It never knows
// how commands do what they do.
package manual
