// Package weeks works out the week grid: for every cell of a grid of normals
// the day on which soil meets each window's trigger, or the reason why it
// never does, and the stretches of the year around it.
//
// It takes normals, a soil model and windows, and gives one Field a window, or
// blocks of rows that go by as a stream, and sorts weeks into bands for the
// legend. It never knows regions, pixels or files.
package weeks
