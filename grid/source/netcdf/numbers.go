package netcdf

import (
	"encoding/binary"
	"math"
)

// number reads one big-endian number.
func number(t typ, b []byte) float64 {
	be := binary.BigEndian
	switch t {
	case typByte:
		return float64(int8(b[0]))
	case typChar, typUbyte:
		return float64(b[0])
	case typShort:
		return float64(int16(be.Uint16(b)))
	case typUshort:
		return float64(be.Uint16(b))
	case typInt:
		return float64(int32(be.Uint32(b)))
	case typUint:
		return float64(be.Uint32(b))
	case typFloat:
		return float64(math.Float32frombits(be.Uint32(b)))
	case typDouble:
		return math.Float64frombits(be.Uint64(b))
	case typInt64:
		return float64(int64(be.Uint64(b)))
	case typUint64:
		return float64(be.Uint64(b))
	}
	return math.NaN()
}

// defaultFill holds the values the library writes into cells nobody set, by
// the NetCDF User's Guide (netcdf.h, NC_FILL_…). Bytes have none in practice:
// every one of their values is in use.
var defaultFill = map[typ]float64{
	typShort: -32767, typUshort: 65535, typInt: -2147483647, typUint: 4294967295,
	typFloat: 9.9692099683868690e+36, typDouble: 9.9692099683868690e+36,
	typInt64: -9223372036854775806, typUint64: 18446744073709551614,
}

// meaning turns stored numbers into values or nothing.
type meaning struct {
	typ           typ
	unsigned      bool      // a signed type used for unsigned numbers
	missing       []float64 // stored numbers that stand for nothing
	low, high     float64   // stored numbers outside are nothing
	scale, offset float64
	scaled        bool
	nodata        string
}

// decode fills vals and has from big-endian numbers in b.
func (m *meaning) decode(vals []float32, has []bool, b []byte) {
	if m.typ == typFloat && len(m.missing) <= 2 && !m.scaled {
		m.decodeFloat(vals, has, b)
		return
	}
	size := int(m.typ.size())
	for i := range vals {
		v := number(m.typ, b[i*size:])
		if m.unsigned && v < 0 {
			v += math.Exp2(float64(8 * size))
		}
		ok := v >= m.low && v <= m.high
		for _, x := range m.missing {
			ok = ok && v != x
		}
		if m.scaled {
			v = float64(v*m.scale) + m.offset
		}
		v32 := float32(v)
		if !ok || math.IsInf(float64(v32), 0) {
			v32, ok = 0, false
		}
		vals[i], has[i] = v32, ok
	}
}

// decodeFloat is decode for the commonest kind.
func (m *meaning) decodeFloat(vals []float32, has []bool, b []byte) {
	nan := float32(math.NaN())
	a, c := nan, nan
	if len(m.missing) > 0 {
		a = float32(m.missing[0])
	}
	if len(m.missing) > 1 {
		c = float32(m.missing[1])
	}
	low, high := float32(max(m.low, -math.MaxFloat32)), float32(min(m.high, math.MaxFloat32))
	for i := range vals {
		v := math.Float32frombits(binary.BigEndian.Uint32(b[4*i:]))
		ok := v >= low && v <= high && v != a && v != c
		if !ok {
			v = 0
		}
		vals[i], has[i] = v, ok
	}
}

// newMeaning reads the packing and missing values of a variable: CF 2.5.1
// and 8.1. Missing values and the valid range are in stored numbers.
func newMeaning(v *variable) meaning {
	m := meaning{typ: v.typ, low: math.Inf(-1), high: math.Inf(1), scale: 1}
	m.unsigned = v.attrs["_Unsigned"].text == "true" && (v.typ == typByte || v.typ == typShort || v.typ == typInt)
	m.low, m.high = -math.MaxFloat64, math.MaxFloat64
	if fill, ok := v.attrs["_FillValue"]; ok {
		m.missing = append(m.missing, m.stored(fill.nums)...)
	} else if fill, ok := defaultFill[v.typ]; ok {
		m.missing = append(m.missing, m.stored([]float64{fill})...)
	}
	for _, x := range m.stored(v.attrs["missing_value"].nums) {
		if len(m.missing) == 0 || m.missing[0] != x {
			m.missing = append(m.missing, x)
		}
	}
	if r := m.stored(v.attrs["valid_range"].nums); len(r) == 2 {
		m.low, m.high = r[0], r[1]
	}
	if r := m.stored(v.attrs["valid_min"].nums); len(r) == 1 {
		m.low = r[0]
	}
	if r := m.stored(v.attrs["valid_max"].nums); len(r) == 1 {
		m.high = r[0]
	}
	if s := v.attrs["scale_factor"].nums; len(s) == 1 {
		m.scale = s[0]
	}
	if s := v.attrs["add_offset"].nums; len(s) == 1 {
		m.offset = s[0]
	}
	m.scaled = m.scale != 1 || m.offset != 0
	return m
}

// stored rounds attribute values to the variable's own type, as the writer
// did with the data.
func (m *meaning) stored(nums []float64) []float64 {
	out := make([]float64, 0, len(nums))
	for _, v := range nums {
		if m.typ == typFloat {
			v = float64(float32(v))
		}
		if m.unsigned && v < 0 {
			v += math.Exp2(float64(8 * m.typ.size()))
		}
		out = append(out, v)
	}
	return out
}
