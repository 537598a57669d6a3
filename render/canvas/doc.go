// Package canvas is the surface that pages are drawn on, and what is drawn: paths
// in inks, areas in looks, which are a tone and a pattern, pictures, and words in
// the fonts that pages have.
//
// It takes drawings, told as calls of Canvas, and gives pixels, by Bitmap;
// package press has the other back ends. A drawing may come out in greys, at
// another place, or through a stencil. Fonts tell how wide words are, and wrap
// them.
//
// It never knows pages, files, nor what is drawn.
package canvas
