// Command territory invents the territory of Merrow, on which the demo runs:
// a land with a coast, islands, a range, a high plateau and a great river,
// its climate, its regions and its towns.
//
//	go run ./cmd/territory
//
// writes the recipe and the data it names into
// cmd/weekband/internal/demo/territory; -out names another folder. It takes
// a drawing of a dozen ovals and lines (layout.go), roughens it with noise,
// wears it down with rivers, drowns the coast, and reads everything else off
// the result:
//
//	layout ─► terrain, erosion ─► coast ─► climate ─► rasters
//	                                  │       └──► weather, ground ─► network ─► offsets
//	                                  │                        └────► thermometers
//	                                  └──► growth ─► borders, arcs ─► regions ─► places
//
// The soil has a truth, offsets above air that change smoothly over the land
// and a little from site to site. Days of weather pass over it; stations and
// readers of thermometers tell what they saw, and the table of offsets is
// learned from the stations as the command calibrate does.
//
// Every run with the same Go on the same kind of machine writes the same
// bytes. Machines that fuse a multiplication with an addition round
// differently, and a river may then take another way.
//
//	go run ./cmd/territory expanse -rows 596 -cols 1385 -regions 50,3100 -water 0.45 -out FOLDER
//
// invents ground of any size instead, to try large data on: a continent, or
// a globe with -box=-180,-90,180,90, its normals in twelve files, regions
// that share winding borders, places, and recipes. It is read off smooth
// noise a block of rows at a time, so that a globe of 21600 × 43200 cells
// takes minutes and no more memory than a small one:
//
//	continent ─► seasons ─► normals
//	     └──► provinces, borders, arcs ─► regions
//
// It knows nothing of weeks or thresholds; the recipes do.
package main
