package press

import (
	"fmt"
	"math"

	"weekband/render/canvas"
)

// Page widths in layout pixels.
const (
	minWidth = 320
	maxWidth = 6000
)

// MinText is the smallest text in layout pixels.
const MinText = 11

// CheckWidth returns an error unless a page may be so many layout pixels wide,
// 320 to 6000.
func CheckWidth(width int) error {
	if width < minWidth || width > maxWidth {
		return fmt.Errorf("press: a page %d px wide; want %d to %d", width, minWidth, maxWidth)
	}
	return nil
}

// UnitOf returns the unit of a page, the size of body text in pixels, by its
// width: 13 px at 900, 18 at 1600, 23 at 2400. Print at full width keeps it
// readable, and no text made from it falls under MinText. It is rounded,
// because powers differ from machine to machine in their last bits, and with
// them where words stand.
func UnitOf(width float64) float64 {
	return max(MinText, float64(float32(13*math.Pow(width/900, 0.6))))
}

// SmallSize is the size in pixels of the least text on a page.
func SmallSize(unit float64) float64 { return max(MinText, unit*0.85) }

// SampleFont is that of words beside a sample of a legend, at a unit of u pixels.
func SampleFont(u float64) canvas.Font { return canvas.Font{Face: canvas.Regular, Size: SmallSize(u)} }

// SampleWidth is the width of a sample of a legend, at a unit of u pixels.
func SampleWidth(u float64) float64 { return float64(2.2 * u) }
