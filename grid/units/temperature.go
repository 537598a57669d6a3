package units

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Celsius is a temperature in °C.
type Celsius float64

// Delta is a difference of temperatures in kelvins.
type Delta float64

// AbsoluteZero is the lowest temperature there is.
const AbsoluteZero Celsius = -273.15

// Add returns the temperature d warmer than c.
func (c Celsius) Add(d Delta) Celsius { return c + Celsius(d) }

// Sub returns how much warmer c is than o.
func (c Celsius) Sub(o Celsius) Delta { return Delta(c - o) }

// Fahrenheit returns the number that stands before °F for this temperature.
func (c Celsius) Fahrenheit() float64 { return float64(float64(c)*1.8) + 32 }

// Fahrenheit returns the difference in degrees Fahrenheit.
func (d Delta) Fahrenheit() float64 { return float64(d) * 1.8 }

// String writes the temperature in °C with one decimal, "12.8 °C".
func (c Celsius) String() string {
	return strconv.FormatFloat(round1(float64(c)), 'f', -1, 64) + " °C"
}

// Both writes the temperature in both scales, "55 °F (12.8 °C)".
func (c Celsius) Both() string {
	return strconv.FormatFloat(round1(c.Fahrenheit()), 'f', -1, 64) + " °F (" + c.String() + ")"
}

func round1(v float64) float64 {
	r := math.Round(v*10) / 10
	if r == 0 {
		return 0 // no "-0"
	}
	return r
}

// Scale is a way of writing temperatures as numbers.
type Scale uint8

const (
	C       Scale = iota + 1 // degrees Celsius
	F                        // degrees Fahrenheit
	K                        // kelvins
	TenthsC                  // tenths of a degree Celsius
	TenthsF                  // tenths of a degree Fahrenheit
)

// Celsius converts a number written on the scale.
func (s Scale) Celsius(v float64) Celsius {
	switch s {
	case F:
		return Celsius((v - 32) / 1.8)
	case K:
		return Celsius(v) + AbsoluteZero
	case TenthsC:
		return Celsius(v / 10)
	case TenthsF:
		return Celsius((v/10 - 32) / 1.8)
	}
	return Celsius(v)
}

// String returns the name a recipe uses for the scale.
func (s Scale) String() string {
	switch s {
	case C:
		return "C"
	case F:
		return "F"
	case K:
		return "K"
	case TenthsC:
		return "0.1C"
	case TenthsF:
		return "0.1F"
	}
	return "unknown"
}

// ParseScale reads the name of a scale: C, F, K, 0.1C or 0.1F.
func ParseScale(text string) (Scale, error) {
	for _, s := range []Scale{C, F, K, TenthsC, TenthsF} {
		if text == s.String() {
			return s, nil
		}
	}
	return 0, fmt.Errorf("temperature unit %q: want C, F, K, 0.1C or 0.1F", text)
}

// Parse reads a temperature with its unit: "55 °F", "55F", "12.8 C",
// "285.9 K". A bare number is refused, because 50 is a warm day on one scale
// and a cool one on the other.
func Parse(text string) (Celsius, error) {
	v, unit, err := splitQuantity(text)
	if err != nil {
		return 0, fmt.Errorf("temperature %q: %w; write it like 55 °F or 12.8 °C", text, err)
	}
	var c Celsius
	switch strings.TrimPrefix(strings.TrimPrefix(unit, "°"), " ") {
	case "":
		return 0, fmt.Errorf("temperature %q has no unit; write %s °F or %s °C", text, trim(v), trim(v))
	case "F":
		c = F.Celsius(v)
	case "C":
		c = Celsius(v)
	case "K":
		c = K.Celsius(v)
	default:
		return 0, fmt.Errorf("temperature %q has the unit %q; want °F, °C or K", text, unit)
	}
	if c < AbsoluteZero {
		return 0, fmt.Errorf("temperature %q is below absolute zero", text)
	}
	return c, nil
}
