// Package crossing finds the day on which a year of temperatures meets a
// trigger, or the reason why it never does.
//
// It takes one daily year, or a Course that tells any of its days, and a Trigger
// and gives a Crossing. It never knows grids, soil, or how the temperatures came
// about.
package crossing
