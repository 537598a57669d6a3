package render

import "weekband/grid/status"

// The ladder of a week: pale before its time, deep when it is time, warm and
// then faded after it. In grey the five keep apart by lightness and texture.
var statusLooks = [...]look{
	status.Resting:    {tone: oklch(0.92, 0.018, 235), pattern: Plain},
	status.Ahead:      {tone: oklch(0.80, 0.075, 225), pattern: Upright},
	status.OnTime:     {tone: oklch(0.45, 0.10, 240), pattern: Plain},
	status.CatchingUp: {tone: oklch(0.74, 0.14, 65), pattern: Falling},
	status.Past:       {tone: oklch(0.84, 0.035, 60), pattern: Dots},
}

// bandLooks returns the looks of n bands.
func bandLooks(s Season, n int, grey bool) []look {
	looks := make([]look, n)
	tones := s.Palette(n)
	if grey {
		tones = NewGreys(n)
	}
	for i := range looks {
		looks[i].tone = tones[i]
		if grey {
			looks[i].pattern = greyPatterns[i%len(greyPatterns)]
		}
	}
	return looks
}
