// Package lookup writes what an edition knows about every cell in small
// files that can be fetched one by one, and answers for a point from them.
//
// It takes week fields, covers of regions and places, and gives
// data/lookup.json with the shards it tells of; and it takes such a folder and
// a position and gives an Answer for every window. It never knows normals,
// regions' shapes or pages.
//
// A shard is a classic script of one call that hands over a text, so that a
// page opened from a folder can load it as well as one from a server:
//
//	data/lookup/<row>-<col>.js    a block of 64 × 64 cells, as weekbandShard("<row>-<col>","<base64>")
//	data/lookup/regions.js        the regions, as weekbandRegions([...])
//	data/lookup/places-<key>.js   places of which a word begins with the key, as weekbandPlaces("<key>",[...])
//
// The base64 of a block holds a raw deflate stream (RFC 1951) of planes, which
// block.go lays out.
package lookup
