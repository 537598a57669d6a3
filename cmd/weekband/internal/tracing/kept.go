package tracing

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/gob"
	"fmt"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/encoding/wkb"

	"weekband/cmd/weekband/internal/keep"
	"weekband/grid"
	"weekband/regions/bands"
)

// CutBands is bands.Trace of a field that reaches some cells past its own, but
// for fields that were cut before, which it takes from kept work.
func CutBands(kept *keep.Store, f bands.Field, reach int, breaks []float64, o bands.Options) (bands.Set, error) {
	trace := func() (bands.Set, error) {
		if reach > 0 {
			f = f.Extend(reach)
		}
		return bands.Trace(f, breaks, o)
	}
	if kept == nil {
		return trace()
	}
	key := bandsKey(f, reach, breaks, o)
	if data, ok := kept.Get(key); ok {
		if set, err := decodeBands(data); err == nil {
			return set, nil
		}
	}
	set, err := trace()
	if err == nil {
		kept.Put(key, encodeBands(set))
	}
	return set, err
}

// bandsKey sums up all that bands are cut from.
func bandsKey(f bands.Field, reach int, breaks []float64, o bands.Options) (k keep.Key) {
	sum := sha256.New()
	fmt.Fprintf(sum, "bands of %#v %d %x %#v\n", f.Day.Grid(), reach, breaks, o)
	put := func(values any, has []bool) {
		binary.Write(sum, binary.LittleEndian, values)
		binary.Write(sum, binary.LittleEndian, has)
	}
	for row := range f.Day.Grid().Rows() {
		put(present(f.Day, row))
		if f.Class != nil {
			put(present(f.Class, row))
		}
	}
	sum.Sum(k[:0])
	return k
}

// present returns a row with 0 for what is not there.
func present[T uint8 | float32](r *grid.Raster[T], row int) ([]T, []bool) {
	vals, has := r.Row(row)
	out := make([]T, len(vals))
	for i, ok := range has {
		if ok {
			out[i] = vals[i]
		}
	}
	return out, has
}

// keptBand is a band as it is kept, its shape as well-known binary.
type keptBand struct {
	Class uint8
	Index int
	Shape []byte
}

func encodeBands(set bands.Set) []byte {
	list := make([]keptBand, len(set.Bands))
	for i, b := range set.Bands {
		list[i] = keptBand{b.Class, b.Index, wkb.MustMarshal(b.Shape)}
	}
	var out bytes.Buffer
	if err := gob.NewEncoder(&out).Encode(list); err != nil {
		panic("kept bands: " + err.Error()) // a type of our own
	}
	return out.Bytes()
}

func decodeBands(data []byte) (set bands.Set, err error) {
	var list []keptBand
	if err := gob.NewDecoder(bytes.NewReader(data)).Decode(&list); err != nil {
		return set, err
	}
	for _, b := range list {
		shape, err := wkb.Unmarshal(b.Shape)
		if err != nil {
			return set, err
		}
		polygons, ok := shape.(orb.MultiPolygon)
		if !ok {
			return set, fmt.Errorf("a band is a %s", shape.GeoJSONType())
		}
		set.Bands = append(set.Bands, bands.Band{Class: b.Class, Index: b.Index, Shape: polygons})
	}
	return set, nil
}
