// Package planar checks that line work is planar: no two segments cross,
// overlap or touch other than at common ends. It exists for tests.
//
// It takes segments and gives the first fault found. It never knows what the
// segments bound.
package planar
