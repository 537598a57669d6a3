package main

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"testing"
)

// Whatever is typed for a reading or a position, it is understood or refused.
func FuzzTyped(f *testing.F) {
	f.Add("2027-03-25=45F")
	f.Add("38.2,-45.1")
	f.Add("=,")
	f.Add("NaN,1e999")
	f.Fuzz(func(t *testing.T, text string) {
		if r, err := parseReading(text); err == nil && (r.date.IsZero() || math.IsNaN(float64(r.soil)) || math.IsInf(float64(r.soil), 0)) {
			t.Errorf("%q is %v", text, r)
		}
		if at, ok, err := position(text); err == nil && ok && !(math.Abs(at.Lat) <= 90 && math.Abs(at.Lon) <= 360) {
			t.Errorf("%q is %v", text, at)
		}
	})
}

// Whatever a logo's file holds, what is kept of it is small.
func FuzzLogo(f *testing.F) {
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 7, 5))); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Add(b.Bytes()[:40])
	f.Add([]byte("\xff\xd8\xff\xe0"))
	f.Fuzz(func(t *testing.T, data []byte) {
		im, err := decodeLogo(data)
		if (im == nil) == (err == nil) {
			t.Errorf("%v, %v", im, err)
		}
		if err == nil && max(im.Rect.Dx(), im.Rect.Dy()) > logoKept {
			t.Errorf("%v", im.Rect)
		}
	})
}
