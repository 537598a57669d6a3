package geotiff

import (
	"fmt"
	"math"
	"strings"
)

// uint reads a whole number as long as b: 1, 2, 4 or 8 bytes.
func (s *stream) uint(b []byte) uint64 {
	switch len(b) {
	case 1:
		return uint64(b[0])
	case 2:
		return uint64(s.order.Uint16(b))
	case 4:
		return uint64(s.order.Uint32(b))
	}
	return s.order.Uint64(b)
}

// uints returns the values of a field of whole numbers, nil when absent.
func (s *stream) uints(d directory, tag uint16) ([]uint64, error) {
	f, ok := d.fields[tag]
	if !ok {
		return nil, nil
	}
	switch f.kind {
	case 1, 3, 4, 13, 16, 18:
	default:
		return nil, fmt.Errorf("%s: tag %d has type %d; want whole numbers", s.name, tag, f.kind)
	}
	b, err := s.bytes(f.at, f.n, fmt.Sprintf("tag %d", tag))
	if err != nil {
		return nil, err
	}
	size := typeSize[f.kind]
	out := make([]uint64, f.count)
	for i := range out {
		out[i] = s.uint(b[int64(i)*size:][:size])
	}
	return out, nil
}

// one returns the first value of a field, or def when it is absent.
func (s *stream) one(d directory, tag uint16, def uint64) (uint64, error) {
	v, err := s.uints(d, tag)
	if err != nil || len(v) == 0 {
		return def, err
	}
	return v[0], nil
}

// doubles returns the values of a field of float64, nil when absent.
func (s *stream) doubles(d directory, tag uint16) ([]float64, error) {
	f, ok := d.fields[tag]
	if !ok {
		return nil, nil
	}
	if f.kind != 12 {
		return nil, fmt.Errorf("%s: tag %d has type %d; want double precision (12)", s.name, tag, f.kind)
	}
	b, err := s.bytes(f.at, f.n, fmt.Sprintf("tag %d", tag))
	if err != nil {
		return nil, err
	}
	out := make([]float64, f.count)
	for i := range out {
		out[i] = math.Float64frombits(s.order.Uint64(b[8*i:]))
	}
	return out, nil
}

// text returns a field of characters without its closing zero byte.
func (s *stream) text(d directory, tag uint16) (string, error) {
	f, ok := d.fields[tag]
	if !ok || f.kind != 2 {
		return "", nil
	}
	b, err := s.bytes(f.at, f.n, fmt.Sprintf("tag %d", tag))
	return strings.TrimRight(string(b), "\x00"), err
}
