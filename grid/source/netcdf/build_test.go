package netcdf

import (
	"encoding/binary"
	"math"
)

// made is a file to be written by hand.
type made struct {
	version byte
	records int // −1: left open by the writer
	dims    []madeDim
	vars    []madeVar
}

type madeDim struct {
	name   string
	length int // 0: the record dimension
}

type madeVar struct {
	name  string
	dims  []int
	typ   typ
	attrs []madeAttr
	data  []float64 // all values, records slowest
}

type madeAttr struct {
	name string
	typ  typ // typChar: text
	text string
	nums []float64
}

func textAttr(name, text string) madeAttr { return madeAttr{name: name, typ: typChar, text: text} }

func numAttr(name string, t typ, v ...float64) madeAttr { return madeAttr{name: name, typ: t, nums: v} }

func pad(b []byte) []byte {
	for len(b)%4 != 0 {
		b = append(b, 0)
	}
	return b
}

// put appends one number.
func put(b []byte, t typ, v float64) []byte {
	be := binary.BigEndian
	switch t {
	case typFloat:
		return be.AppendUint32(b, math.Float32bits(float32(v)))
	case typDouble:
		return be.AppendUint64(b, math.Float64bits(v))
	case typUint64:
		return be.AppendUint64(b, uint64(v))
	}
	u := uint64(int64(v))
	switch t.size() {
	case 1:
		return append(b, byte(u))
	case 2:
		return be.AppendUint16(b, uint16(u))
	case 4:
		return be.AppendUint32(b, uint32(u))
	}
	return be.AppendUint64(b, u)
}

// count appends a number of the width of the version.
func (m made) count(b []byte, n int) []byte {
	if m.version == 5 {
		return binary.BigEndian.AppendUint64(b, uint64(int64(n)))
	}
	return binary.BigEndian.AppendUint32(b, uint32(int32(n)))
}

func (m made) name(b []byte, s string) []byte { return pad(append(m.count(b, len(s)), s...)) }

func (m made) list(b []byte, tag uint32, n int) []byte {
	if n == 0 {
		tag = 0
	}
	return m.count(binary.BigEndian.AppendUint32(b, tag), n)
}

func (m made) attrs(b []byte, attrs []madeAttr) []byte {
	b = m.list(b, 12, len(attrs))
	for _, a := range attrs {
		b = binary.BigEndian.AppendUint32(m.name(b, a.name), uint32(a.typ))
		if a.typ == typChar {
			b = m.name(b, a.text)
			continue
		}
		b = m.count(b, len(a.nums))
		for _, v := range a.nums {
			b = put(b, a.typ, v)
		}
		b = pad(b)
	}
	return b
}

// header returns the header with the given places of the variables.
func (m made) header(begins []int) []byte {
	b := m.count([]byte{'C', 'D', 'F', m.version}, m.records)
	b = m.list(b, 10, len(m.dims))
	for _, d := range m.dims {
		b = m.count(m.name(b, d.name), d.length)
	}
	b = m.attrs(b, []madeAttr{textAttr("title", "invented"), numAttr("version", typShort, 3)})
	b = m.list(b, 11, len(m.vars))
	for i, v := range m.vars {
		b = m.count(m.name(b, v.name), len(v.dims))
		for _, d := range v.dims {
			b = m.count(b, d)
		}
		b = binary.BigEndian.AppendUint32(m.attrs(b, v.attrs), uint32(v.typ))
		b = m.count(b, 12345) // vsize: readers must not rely on it
		if m.version == 1 {
			b = binary.BigEndian.AppendUint32(b, uint32(begins[i]))
		} else {
			b = binary.BigEndian.AppendUint64(b, uint64(begins[i]))
		}
	}
	return b
}

func (m made) isRecord(v madeVar) bool { return len(v.dims) > 0 && m.dims[v.dims[0]].length == 0 }

// build returns the bytes: fixed variables first, then the records.
func (m made) build() []byte {
	begins := make([]int, len(m.vars))
	at := len(m.header(begins))
	var recs []int
	var body []byte
	for i, v := range m.vars {
		if m.isRecord(v) {
			recs = append(recs, i)
			continue
		}
		begins[i] = at + len(body)
		for _, x := range v.data {
			body = put(body, v.typ, x)
		}
		body = pad(body)
	}
	first := at + len(body)
	for _, i := range recs {
		begins[i] = first
		part := m.part(m.vars[i]) * int(m.vars[i].typ.size())
		first += (part + 3) / 4 * 4
	}
	records := 0
	if len(recs) > 0 {
		records = len(m.vars[recs[0]].data) / m.part(m.vars[recs[0]])
	}
	for r := range records {
		for _, i := range recs {
			n := m.part(m.vars[i])
			for _, x := range m.vars[i].data[r*n : (r+1)*n] {
				body = put(body, m.vars[i].typ, x)
			}
			if len(recs) > 1 { // a lone record variable is not padded
				body = pad(body)
			}
		}
	}
	return append(m.header(begins), body...)
}

// part returns the number of values of a record.
func (m made) part(v madeVar) int {
	n := 1
	for _, d := range v.dims {
		if m.dims[d].length > 0 {
			n *= m.dims[d].length
		}
	}
	return n
}
