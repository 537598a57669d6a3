// Package plane does plane geometry on pages and images: places, rectangles and
// paths in pixels, X to the right and Y down.
//
// It takes paths and gives what is asked of them: where they are widest, what
// they cover, what of them lies in a frame, the same with fewer points where
// borders that shapes share stay shared, hatches, and their outlines as SVG and
// PDF write them. What it works out is the same on every machine.
//
// It never knows colours, words or what a path is the outline of.
package plane
