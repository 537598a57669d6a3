// Package keep keeps finished work on disk between runs of the program.
//
// It takes bytes under a key that stands for all they were made of, and gives
// them back to the same program under the same key, or nothing. What it gives
// is what was put: every entry is checked against its sum. Another build of
// the program has entries of its own. The folder is bounded in size, several
// runs may share it, and it may be deleted at any time, also while a run uses
// it. It never knows what the bytes mean, and no fault of the disk under it
// is an error: it forgets, and says once why.
package keep
