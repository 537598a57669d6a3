package polygons

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strconv"

	"github.com/paulmach/orb"

	"weekband/regions/arcs"
)

// Feature is one feature to write.
type Feature struct {
	ID         string // left out when empty
	Properties []Property
	Shape      orb.MultiPolygon
}

// Property is one member of a feature's properties. Value is anything
// encoding/json writes; numbers that are not finite are an error.
type Property struct {
	Key   string
	Value any
}

// Encoder writes a GeoJSON FeatureCollection (RFC 7946) feature by feature.
// Coordinates are rounded to six decimals of a degree (0.1 m), properties
// keep their order, outer rings run counter-clockwise and holes clockwise.
// Rings that rounding leaves without area are left out. Equal calls write
// equal bytes.
type Encoder struct {
	w     *bufio.Writer
	begun bool
	buf   []byte
}

// NewEncoder returns an encoder that writes to w.
func NewEncoder(w io.Writer) *Encoder { return &Encoder{w: bufio.NewWriter(w)} }

// Write adds one feature. A feature without any area gets the geometry null.
func (e *Encoder) Write(f Feature) error {
	e.buf = e.buf[:0]
	if !e.begun {
		e.buf = append(e.buf, `{"type":"FeatureCollection","features":[`...)
		e.begun = true
	} else {
		e.buf = append(e.buf, ',')
	}
	e.buf = append(e.buf, "\n"+`{"type":"Feature",`...)
	if f.ID != "" {
		e.buf = append(e.buf, `"id":`...)
		if err := e.value(f.ID); err != nil {
			return err
		}
		e.buf = append(e.buf, ',')
	}
	e.buf = append(e.buf, `"properties":{`...)
	for i, p := range f.Properties {
		if i > 0 {
			e.buf = append(e.buf, ',')
		}
		if err := e.value(p.Key); err != nil {
			return err
		}
		e.buf = append(e.buf, ':')
		if err := e.value(p.Value); err != nil {
			return fmt.Errorf("property %s of feature %s: %w", p.Key, f.ID, err)
		}
	}
	e.buf = append(e.buf, `},"geometry":`...)
	e.geometry(f.Shape)
	e.buf = append(e.buf, '}')
	_, err := e.w.Write(e.buf)
	return err
}

// Close ends the collection and flushes. It does not close the writer below.
func (e *Encoder) Close() error {
	if !e.begun {
		e.w.WriteString(`{"type":"FeatureCollection","features":[`)
	}
	e.w.WriteString("\n]}\n")
	return e.w.Flush() // reports the first error of the writes before it
}

func (e *Encoder) value(v any) error {
	text, err := json.Marshal(v)
	e.buf = append(e.buf, text...)
	return err
}

func (e *Encoder) geometry(shape orb.MultiPolygon) {
	shape = rounded(shape)
	switch len(shape) {
	case 0:
		e.buf = append(e.buf, "null"...)
	case 1:
		e.buf = append(e.buf, `{"type":"Polygon","coordinates":`...)
		e.polygon(shape[0])
		e.buf = append(e.buf, '}')
	default:
		e.buf = append(e.buf, `{"type":"MultiPolygon","coordinates":[`...)
		for i, polygon := range shape {
			if i > 0 {
				e.buf = append(e.buf, ',')
			}
			e.polygon(polygon)
		}
		e.buf = append(e.buf, "]}"...)
	}
}

func (e *Encoder) polygon(polygon orb.Polygon) {
	e.buf = append(e.buf, '[')
	for i, ring := range polygon {
		if i > 0 {
			e.buf = append(e.buf, ',')
		}
		e.buf = append(e.buf, '[')
		for j, p := range ring {
			if j > 0 {
				e.buf = append(e.buf, ',')
			}
			e.buf = append(e.buf, '[')
			e.buf = strconv.AppendFloat(e.buf, p[0], 'f', -1, 64)
			e.buf = append(e.buf, ',')
			e.buf = strconv.AppendFloat(e.buf, p[1], 'f', -1, 64)
			e.buf = append(e.buf, ']')
		}
		e.buf = append(e.buf, ']')
	}
	e.buf = append(e.buf, ']')
}

// rounded returns the shape at six decimals, wound as RFC 7946 says, without
// what lost its area. A position rounds to the same numbers in every shape
// that has it, so shared borders stay shared.
func rounded(shape orb.MultiPolygon) orb.MultiPolygon {
	var out orb.MultiPolygon
	for _, polygon := range shape {
		var kept orb.Polygon
		for i, ring := range polygon {
			turned := make(orb.Ring, len(ring))
			for j, p := range ring {
				turned[j] = orb.Point{sixDecimals(p[0]), sixDecimals(p[1])}
			}
			turned = slices.Compact(turned)
			area := arcs.SignedArea(turned)
			if area == 0 && i == 0 {
				break
			}
			if area == 0 {
				continue
			}
			if (area > 0) != (i == 0) {
				slices.Reverse(turned)
			}
			kept = append(kept, turned)
		}
		if len(kept) > 0 {
			out = append(out, kept)
		}
	}
	return out
}

// sixDecimals rounds to the nearest millionth, ties to even in the decimal
// text, and never returns −0.
func sixDecimals(v float64) float64 {
	var buf [32]byte
	r, _ := strconv.ParseFloat(string(strconv.AppendFloat(buf[:0], v, 'f', 6, 64)), 64)
	return r + 0 // −0 + 0 is 0
}
