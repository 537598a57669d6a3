package answer

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Whatever is typed for a reading or a position, it is understood or refused.
// (Not fuzz targets: their instrumented build of all packages takes minutes.)
func TestWhateverIsTyped(t *testing.T) {
	pieces := rapid.SampledFrom([]string{"2027-03-25", "=", "45", "F", "°C", ",", "-", "38.2", "NaN", "1e999", "Inf", " ", "0x1p4", "é", "\x00"})
	rapid.Check(t, func(t *rapid.T) {
		text := ""
		for _, piece := range rapid.SliceOfN(pieces, 0, 6).Draw(t, "pieces") {
			text += piece
		}
		if r, err := ParseReading(text); err == nil && (r.Date.IsZero() || math.IsNaN(float64(r.Soil)) || math.IsInf(float64(r.Soil), 0)) {
			t.Errorf("%q is %v", text, r)
		}
		if at, ok, err := position(text); err == nil && ok && !(math.Abs(at.Lat) <= 90 && math.Abs(at.Lon) <= 360) {
			t.Errorf("%q is %v", text, at)
		}
	})
}
