package geotiff

import (
	"encoding/binary"
	"io"
	"math"
)

// band says what the samples of one layer mean.
type band struct {
	page   *page
	index  int // within the page
	nodata float64
	ok32   float32 // floating samples beyond this magnitude are missing
	nod32  float32
	scaled bool
	scale  float64
	offset float64
	name   string
	unit   string
}

// huge is where floating numbers end to be measurements when the nodata
// value is that large: programs print -3.4028234663852886e+38 with fewer
// digits than they store.
const huge = 1e30

func (b *band) setNoData(v float64, ok bool) {
	b.nodata, b.nod32, b.ok32 = math.NaN(), float32(math.NaN()), math.MaxFloat32
	if !ok {
		return
	}
	b.nodata, b.nod32 = v, float32(v)
	if math.Abs(v) > huge {
		b.ok32 = huge
	}
}

// convert fills vals and has from the samples in src that begin at byte
// start and follow each other by stride bytes.
func (b *band) convert(vals []float32, has []bool, src []byte, start, stride int) {
	le := binary.LittleEndian
	has = has[:len(vals)]
	switch b.page.kind {
	case float32s:
		for i := range vals {
			v := math.Float32frombits(le.Uint32(src[start:]))
			start += stride
			ok := v <= b.ok32 && v >= -b.ok32 && v != b.nod32
			if !ok {
				v = 0
			}
			vals[i], has[i] = v, ok
		}
	case float64s:
		b.eachFloat(vals, has, src, start, stride)
		return
	case int16s:
		b.eachInt16(vals, has, src[start:], stride)
		return
	default:
		b.eachInt(vals, has, src, start, stride)
		return
	}
	if b.scaled {
		for i, v := range vals {
			vals[i] = float32(float64(float64(v)*b.scale) + b.offset)
		}
	}
}

func (b *band) eachFloat(vals []float32, has []bool, src []byte, start, stride int) {
	for i := range vals {
		v := math.Float64frombits(binary.LittleEndian.Uint64(src[start:]))
		start += stride
		ok := v == v && v != b.nodata && math.Abs(v) <= float64(b.ok32)
		if b.scaled {
			v = float64(v*b.scale) + b.offset
		}
		if !ok {
			v = 0
		}
		vals[i], has[i] = float32(v), ok
	}
}

func (b *band) eachInt(vals []float32, has []bool, src []byte, start, stride int) {
	le := binary.LittleEndian
	for i := range vals {
		var v float64
		switch s := src[start:]; b.page.kind {
		case uint8s:
			v = float64(s[0])
		case int8s:
			v = float64(int8(s[0]))
		case uint16s:
			v = float64(le.Uint16(s))
		case uint32s:
			v = float64(le.Uint32(s))
		case int32s:
			v = float64(int32(le.Uint32(s)))
		}
		start += stride
		ok := v != b.nodata
		if b.scaled {
			v = float64(v*b.scale) + b.offset
		}
		if !ok {
			v = 0
		}
		vals[i], has[i] = float32(v), ok
	}
}

// eachInt16 is eachInt for the samples that large open sets have.
func (b *band) eachInt16(vals []float32, has []bool, src []byte, stride int) {
	none := int32(math.MaxInt32) // no sample
	if n := int32(b.nodata); float64(n) == b.nodata {
		none = n
	}
	scale, offset := 1.0, 0.0
	if b.scaled {
		scale, offset = b.scale, b.offset
	}
	has = has[:len(vals)]
	for i := range vals {
		raw := int32(int16(binary.LittleEndian.Uint16(src)))
		v := float32(float64(float64(raw)*scale) + offset)
		ok := raw != none
		if !ok {
			v = 0
		}
		vals[i], has[i] = v, ok
		src = src[min(stride, len(src)):]
	}
}

// isEnd reports whether err only says that a read ended where the file does.
func isEnd(err error, end, size int64) bool { return err == io.EOF && end == size }
