// Package site writes the pages of an edition.
//
// It takes what was worked out and the names of the pictures and tables, and
// writes HTML and its assets under an *os.Root. Pages work from file:// and
// under any sub-path, and ask nothing of any server. It never knows normals,
// grids, the clock or the network.
package site
