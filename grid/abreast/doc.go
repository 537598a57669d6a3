// Package abreast does jobs side by side.
//
// It takes a number of jobs and what does one of them. It never knows what the
// jobs are about.
package abreast
