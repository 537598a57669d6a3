package units

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Metres is a length or depth in metres.
type Metres float64

// lengthUnits gives metres per unit: the international inch and foot are
// exact by definition (ISO 31-1).
var lengthUnits = []struct {
	name   string
	metres float64
}{{"in", 0.0254}, {"ft", 0.3048}, {"mm", 0.001}, {"cm", 0.01}, {"km", 1000}, {"m", 1}}

// ParseDepth reads a depth below the surface: "4 in", "10 cm", "0.1 m".
// A bare number, a negative depth and one beyond 3 m are refused: the year's
// wave of temperature hardly reaches further.
func ParseDepth(text string) (Metres, error) {
	v, unit, err := splitQuantity(text)
	if err != nil {
		return 0, fmt.Errorf("depth %q: %w; write it like 4 in or 10 cm", text, err)
	}
	for _, u := range lengthUnits {
		if unit != u.name {
			continue
		}
		m := v * u.metres
		if m < 0 || m > 3 {
			return 0, fmt.Errorf("depth %q is outside 0 to 3 m", text)
		}
		return Metres(m), nil
	}
	return 0, fmt.Errorf("depth %q: want a number with in, ft, mm, cm or m, such as 4 in", text)
}

// Inches writes the depth to the nearest half inch, as probes are marked:
// 10 cm is "4 in".
func (m Metres) Inches() string { return trim(math.Round(float64(m)/0.0254*2)/2) + " in" }

// Centimetres writes the depth in centimetres, "10 cm", to a tenth below
// 3 cm and whole above.
func (m Metres) Centimetres() string {
	cm := float64(m) * 100
	if cm >= 3 {
		return trim(math.Round(cm)) + " cm"
	}
	return trim(round1(cm)) + " cm"
}

// CellSize is the size of a grid cell, in metres or in degrees; the other is
// 0.
type CellSize struct {
	Metres  Metres
	Degrees float64
}

// ParseCellSize reads the size of a grid cell: "4 km", "800 m", "0.1 deg",
// "10 arcmin". A bare number and sizes that are not positive are refused.
func ParseCellSize(text string) (CellSize, error) {
	v, unit, err := splitQuantity(text)
	if err != nil {
		return CellSize{}, fmt.Errorf("cell size %q: %w; write it like 4 km or 10 arcmin", text, err)
	}
	if !(v > 0) {
		return CellSize{}, fmt.Errorf("cell size %q: want more than 0", text)
	}
	switch unit {
	case "km":
		return CellSize{Metres: Metres(v * 1000)}, nil
	case "m":
		return CellSize{Metres: Metres(v)}, nil
	case "deg", "°":
		return CellSize{Degrees: v}, nil
	case "arcmin":
		return CellSize{Degrees: v / 60}, nil
	}
	return CellSize{}, fmt.Errorf("cell size %q: want a number with km, m, deg or arcmin, such as 4 km", text)
}

// ParseDays reads a number of days: "45 d", "45 days". It refuses bare
// numbers and negative ones.
func ParseDays(text string) (float64, error) {
	v, unit, err := splitQuantity(text)
	if err != nil {
		return 0, fmt.Errorf("duration %q: %w; write it like 45 d", text, err)
	}
	if unit != "d" && unit != "day" && unit != "days" {
		return 0, fmt.Errorf("duration %q: want a number of days, such as 45 d", text)
	}
	if v < 0 {
		return 0, fmt.Errorf("duration %q is negative", text)
	}
	return v, nil
}

// splitQuantity parts "12.8 °C" into 12.8 and "°C".
func splitQuantity(text string) (float64, string, error) {
	s := strings.TrimSpace(text)
	end := strings.IndexFunc(s, func(r rune) bool {
		return (r < '0' || r > '9') && r != '.' && r != '-' && r != '+'
	})
	if end < 0 {
		end = len(s)
	}
	v, err := strconv.ParseFloat(s[:end], 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, "", errors.New("no number in front")
	}
	return v, strings.TrimSpace(s[end:]), nil
}

func trim(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// Count writes a number of things: "1 station", "2 stations".
func Count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
