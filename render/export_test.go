package render

import (
	"image/color"

	"weekband/grid/status"
)

// StatusTone returns the tone of a status on maps.
func StatusTone(s status.Status) color.NRGBA { return statusLooks[s].tone }
