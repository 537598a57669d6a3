// Package press makes files of pages.
//
// It takes a page as steps that draw on a canvas, with its title, credits and
// the places of all its words, and gives it as PNG in a palette or in full
// colours, for screens and for print, as SVG and as PDF; of pages of a series,
// one palette for all and an animation. The same page gives the same bytes;
// what was made before can come from a Keeper.
//
// It never knows maps, dates, disks or clocks: what stands on a page is its
// maker's business.
package press
