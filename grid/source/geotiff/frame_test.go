package geotiff

import (
	"bytes"
	"strings"
	"testing"
)

func TestReadFrame(t *testing.T) {
	identity := []float64{0.5, 0, 0, -91, 0, -0.25, 0, 42, 0, 0, 1, 0, 0, 0, 0, 1}
	rotated := append([]float64{}, identity...)
	rotated[1] = 0.1
	southUp := append([]float64{}, identity...)
	southUp[5], southUp[7] = 0.25, 42-37*0.25
	none := func(tag uint16) entry { return entry{tag: tag, count: -1} }
	p := small(float32s)
	point := p.shorts(tagGeoKeys, 1, 1, 0, 2, 1024, 0, 1, 2, 1025, 0, 1, 2)
	for _, c := range []struct {
		name        string
		extra       []entry
		west, north float64
		south       bool
		err         string
	}{
		{name: "area", west: -91, north: 42},
		{name: "tie point in the middle", extra: []entry{p.doubles(tagTiepoint, 10, 4, 0, -86, 41, 0)}, west: -91, north: 42},
		{name: "point", extra: []entry{point}, west: -91.25, north: 42.125},
		{name: "matrix", extra: []entry{none(tagPixelScale), none(tagTiepoint), p.doubles(tagTransformation, identity...)}, west: -91, north: 42},
		{name: "matrix, point", extra: []entry{none(tagPixelScale), none(tagTiepoint), p.doubles(tagTransformation, identity...), point}, west: -91.25, north: 42.125},
		{name: "matrix, south up", extra: []entry{none(tagPixelScale), none(tagTiepoint), p.doubles(tagTransformation, southUp...)}, west: -91, north: 42, south: true},
		{name: "rotated", extra: []entry{none(tagPixelScale), none(tagTiepoint), p.doubles(tagTransformation, rotated...)}, err: "rotated"},
		{name: "nowhere", extra: []entry{none(tagPixelScale), none(tagTiepoint)}, err: "no tags say where"},
		{name: "control points", extra: []entry{none(tagPixelScale), p.doubles(tagTiepoint, make([]float64, 24)...)}, err: "4 control points"},
		{name: "other geographic", extra: []entry{p.shorts(tagGeoKeys, 1, 1, 0, 2, 1024, 0, 1, 2, 2048, 0, 1, 4269)}, west: -91, north: 42},
		{name: "no keys", extra: []entry{none(tagGeoKeys)}, west: -91, north: 42},
		{name: "no keys, metres", extra: []entry{none(tagGeoKeys), p.doubles(tagTiepoint, 0, 0, 0, 500000, 4e6, 0)}, err: "not longitudes"},
		{name: "grads", extra: []entry{p.shorts(tagGeoKeys, 1, 1, 0, 2, 1024, 0, 1, 2, 2054, 0, 1, 9105)}, err: "9105"},
		{name: "Paris", extra: []entry{p.shorts(tagGeoKeys, 1, 1, 0, 2, 1024, 0, 1, 2, 2051, 0, 1, 8903)}, err: "prime meridian"},
		{name: "geocentric", extra: []entry{p.shorts(tagGeoKeys, 1, 1, 0, 1, 1024, 0, 1, 3)}, err: "geocentric"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := p
			p.extra = c.extra
			b := p.build()
			f, err := Open(bytes.NewReader(b), int64(len(b)), "test.tif", Options{})
			if c.err != "" {
				if err == nil || !strings.Contains(err.Error(), c.err) {
					t.Fatalf("error %v, want one with %q", err, c.err)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			got := f.Frame()
			if got.West != c.west || got.North != c.north || got.SouthFirst != c.south || got.StepLon != 0.5 || got.StepLat != 0.25 || got.Rows != 37 || got.Cols != 53 {
				t.Errorf("%+v", got)
			}
		})
	}
}

func TestOpenProjected(t *testing.T) {
	p := small(int16s)
	p.extra = []entry{
		p.shorts(tagGeoKeys, 1, 1, 0, 5, 1024, 0, 1, 1, 3072, 0, 1, 5070, 3073, 34737, 7, 0, 3078, 34736, 1, 0, 3079, 34736, 1, 1),
		p.doubles(tagGeoDoubles, 29.5, 45.5), text(tagGeoASCII, "Albers|"),
	}
	b := p.build()
	_, err := Open(bytes.NewReader(b), int64(len(b)), "test.tif", Options{})
	e, ok := err.(*ProjectedError)
	if !ok {
		t.Fatalf("%T %v", err, err)
	}
	if e.EPSG != 5070 || e.Citation != "Albers" {
		t.Errorf("%+v", e)
	}
	if !strings.Contains(e.Error(), "EPSG:5070 (Albers)") {
		t.Error(e)
	}
}
