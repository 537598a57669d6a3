package render

import (
	"fmt"
	"math"
)

// Page widths in layout pixels.
const (
	minWidth = 320
	maxWidth = 6000
)

// minText is the smallest text in layout pixels.
const minText = 11

// checkWidth returns an error unless a page may be so many layout pixels wide,
// 320 to 6000.
func checkWidth(width int) error {
	if width < minWidth || width > maxWidth {
		return fmt.Errorf("render: a page %d px wide; want %d to %d", width, minWidth, maxWidth)
	}
	return nil
}

// unitOf returns the size of body text for a page width: 13 px at 900, 18 at
// 1600, 23 at 2400. Print at full width keeps it readable, and no text made
// from it falls under minText. It is rounded, because powers differ from
// machine to machine in their last bits, and with them where words stand.
func unitOf(width float64) float64 {
	return max(minText, float64(float32(13*math.Pow(width/900, 0.6))))
}

// small is the size of the least text on the page.
func small(unit float64) float64 { return max(minText, unit*0.85) }

// sampleFont is that of words beside a sample of a legend, at a unit of u pixels.
func sampleFont(u float64) Font { return Font{Face: Regular, Size: small(u)} }

// sampleWidth is the width of a sample of a legend, at a unit of u pixels.
func sampleWidth(u float64) float64 { return float64(2.2 * u) }
