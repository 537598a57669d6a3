// Package progress tells people, or programs, what a command is doing.
//
// It takes a stream, stages, counts and notes, and gives one line a stage, one
// live line on a terminal, or JSON events. It never knows what the work is about.
package progress
