package progress

import (
	"fmt"
	"math"
	"strconv"
	"time"
)

// grouped writes a count, a comma before every three digits.
func grouped(n int64) string {
	text := strconv.FormatInt(n, 10)
	for at := len(text) - 3; at > 0; at -= 3 {
		text = text[:at] + "," + text[at:]
	}
	return text
}

// paced writes a rate with as many digits as it is worth.
func paced(rate float64) string {
	if rate < 9.95 {
		return strconv.FormatFloat(rate, 'f', 1, 64)
	}
	return grouped(int64(math.Round(rate)))
}

// spent writes a time as people say it.
func spent(d time.Duration) string {
	s := int64(math.Ceil(d.Seconds()))
	switch {
	case s < 60:
		return fmt.Sprintf("%d s", s)
	case s < 3600:
		return fmt.Sprintf("%d min %d s", s/60, s%60)
	}
	return fmt.Sprintf("%s h %d min", grouped(s/3600), s/60%60)
}
