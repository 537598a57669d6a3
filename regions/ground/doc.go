// Package ground finds what is wrong with polygons as they were drawn, and
// puts it right.
//
// It takes polygons whose rings may cross themselves and each other, run out
// and back, or have holes where they mean nothing, and gives polygons of the
// same ground whose rings touch in points at most, with what was found.
//
// It never knows files, names, or what the polygons stand for.
package ground
