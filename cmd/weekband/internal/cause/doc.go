// Package cause tells from the manifests of two editions why their weeks
// differ, as far as manifests can.
//
// It takes what both say of version, inputs, calibration and recipe, and gives
// the differences in words, those that can move a week apart from the others. It
// never knows the weeks themselves: several causes at once are told side by
// side, since what each moved alone cannot be told.
package cause
