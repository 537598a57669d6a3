package looks

import (
	"weekband/grid/status"
	"weekband/render/canvas"
)

// Statuses are the looks of the statuses of a week, a ladder: pale before its time, deep when it is time, warm and
// then faded after it. In grey the five keep apart by lightness and texture.
var Statuses = [...]canvas.Look{
	status.Resting:    {Tone: canvas.OKLCh(0.92, 0.018, 235), Pattern: canvas.Plain},
	status.Ahead:      {Tone: canvas.OKLCh(0.80, 0.075, 225), Pattern: canvas.Upright},
	status.OnTime:     {Tone: canvas.OKLCh(0.45, 0.10, 240), Pattern: canvas.Plain},
	status.CatchingUp: {Tone: canvas.OKLCh(0.74, 0.14, 65), Pattern: canvas.Falling},
	status.Past:       {Tone: canvas.OKLCh(0.84, 0.035, 60), Pattern: canvas.Dots},
}

// Weeks returns the looks of n bands of weeks in the colours of a season, from
// the earliest to the latest. In grey they are greys that neighbours tell apart
// by patterns.
func Weeks(s Scheme, n int, grey bool) []canvas.Look {
	looks := make([]canvas.Look, n)
	tones := s.Palette(n)
	if grey {
		tones = NewGreys(n)
	}
	for i := range looks {
		looks[i].Tone = tones[i]
		if grey {
			looks[i].Pattern = greyPatterns[i%len(greyPatterns)]
		}
	}
	return looks
}
