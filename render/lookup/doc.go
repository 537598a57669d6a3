// Package lookup writes what an edition knows about every cell in small
// files that can be fetched one by one, and answers for a point from them.
//
// It takes week fields and gives data/lookup.json with its tiles; and it
// takes such a folder and a position and gives an Answer for every window. It
// never knows normals, regions' shapes or pages.
package lookup
