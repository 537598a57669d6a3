package render

import (
	"image/color"

	"weekband/grid/status"
	"weekband/render/looks"
)

// StatusTone returns the tone of a status on maps.
func StatusTone(s status.Status) color.NRGBA { return looks.Statuses[s].Tone }
