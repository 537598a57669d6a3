// Package site writes the pages of an edition.
//
// It takes what was worked out and the names of the pictures and tables, and
// writes HTML and its assets under an *os.Root. Pages work from file:// and
// under any sub-path, and ask nothing of any server. It never knows normals,
// grids, the clock or the network.
//
// A Writer writes the pages from the templates in pages/, each given a view:
// the edition as one page shows it. Their script, assets/weekband.js, is made of
// the parts in script/, which are plain functions put one after the other
// within one (see scripts for their order): the calendar, the sciences that an
// answer needs again (they mirror grid/curve, crossing, worth and outlook, and
// are tested against them), the shards of package lookup, then what a reader
// touches, and last page.js, which starts it. Charts have a script of their own.
package site
