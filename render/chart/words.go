package chart

import (
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"weekband/grid/units"
	"weekband/regions/report"
	"weekband/render/wording"
)

// title writes a text with a capital.
func title(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

// count writes a number of things.
func count(n int, noun string) string { return units.Count(n, noun) }

// percent writes a share, 0 to 1.
func percent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

// warmth writes a temperature in both scales, whole: "41 °F (5 °C)".
func warmth(c units.Celsius) string {
	return fmt.Sprintf("%s °F (%s °C)", signed(c.Fahrenheit()), signed(float64(c)))
}

// warmer writes a difference in both scales, whole: "9 °F (5 °C)".
func warmer(d units.Delta) string {
	return fmt.Sprintf("%.0f °F (%.0f °C)", d.Fahrenheit(), float64(d))
}

// signed writes a whole number with a true minus sign.
func signed(v float64) string {
	return strings.Replace(fmt.Sprintf("%.0f", math.Round(v)+0), "-", "−", 1)
}

// grouped writes a whole number with a comma between thousands.
func grouped(v float64) string {
	text := signed(v)
	digits := strings.TrimPrefix(text, "−")
	sign := strings.TrimSuffix(text, digits)
	for at := len(digits) - 3; at > 0; at -= 3 {
		digits = digits[:at] + "," + digits[at:]
	}
	return sign + digits
}

// fromTo writes the limits of a class, "200–400" or "−200 to 0".
func fromTo(from, to float64) string {
	if from < 0 {
		return grouped(from) + " to " + grouped(to)
	}
	return grouped(from) + "–" + grouped(to)
}

// among joins names: "a", "a and b", "a, b and c".
func among(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// ground adds how much of the region its weeks hold for to what is said of
// them: first when that is less than half, last when it is not all.
func ground(l *wording.Language, r *report.Row, said ...string) []string {
	if r.DatedThroughout() {
		return said
	}
	part := l.Sentences.Region.Part(l.Percent(r.Shares.DatedShare))
	if r.MostlyDated() {
		return append(said, part)
	}
	return append([]string{part}, said...)
}
