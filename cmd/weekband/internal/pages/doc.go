// Package pages puts the site of an edition together: what every page tells, the
// charts, the downloads, and the files by which others find the site.
//
// It takes windows, rows of regions and an album of pictures, and gives files
// under a root, by package render/site. It never knows how anything was worked
// out or drawn.
package pages
