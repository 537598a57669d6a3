package progress

import (
	"fmt"
	"math"
	"strings"
)

// Widths of the parts of a live line in columns.
const (
	leastText = 12
	leastBar  = 10
	mostBar   = 30
	between   = 2
)

// barLine is the live line of a stage, at most so many columns wide: what it
// is, a bar, percent, the count, the rate and the time left; of these as many
// as there is room for, percent and time left first.
func barLine(columns int, r extent) string {
	text := visible(strings.Join(strings.Fields(r.text), " "))
	if r.total == 0 {
		return joined(columns, text, spent(r.elapsed))
	}
	share := float64(r.did) / float64(r.total)
	parts := []string{ // as they stand
		fmt.Sprintf("%d %%", int(100*share)),
		fmt.Sprintf("%s of %s %s", grouped(r.did), grouped(r.total), r.unit),
		"",
		"",
	}
	if r.elapsed >= settles {
		parts[2] = paced(r.rate) + "/s"
	}
	if r.left >= 0 {
		parts[3] = spent(r.left) + " left"
	}
	room := columns - min(columnsOf(text), max(leastText, columns/3))
	kept := make([]string, len(parts))
	for _, i := range []int{0, 3, 1, 2} {
		if need := between + columnsOf(parts[i]); parts[i] != "" && need <= room {
			kept[i], room = parts[i], room-need
		}
	}
	room = columns - columnsOf(text) - between
	for _, part := range kept {
		if part != "" {
			room -= between + columnsOf(part)
		}
	}
	if n := min(room-2, mostBar); n >= leastBar {
		full := int(math.Floor(share * float64(n)))
		kept = append([]string{"[" + strings.Repeat("#", full) + strings.Repeat(".", n-full) + "]"}, kept...)
	}
	return joined(columns, text, kept...)
}

// joined sets parts that are not empty behind a text, which is cut to what
// room they leave.
func joined(columns int, text string, parts ...string) string {
	tail := ""
	for _, part := range parts {
		if part != "" {
			tail += strings.Repeat(" ", between) + part
		}
	}
	if room := columns - columnsOf(tail); room > 0 {
		return cut(text, room) + tail
	}
	return cut(text, columns)
}
