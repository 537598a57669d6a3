package netcdf

import (
	"fmt"
	"math"
	"strings"
)

// maxAttribute bounds one attribute in bytes; the longest seen are histories
// of some hundred kilobytes.
const maxAttribute = 16 << 20

// attributes reads a list of attributes.
func (p *parser) attributes() map[string]attribute {
	attrs := map[string]attribute{}
	for range p.list(12, 12, "attributes") {
		name := p.text("an attribute's name")
		a := attribute{typ: typ(p.u32("an attribute's type"))}
		n := p.count("an attribute's length")
		size := a.typ.size()
		if p.err == nil && (size == 0 || n > min(p.size-p.at, maxAttribute)/size) {
			p.fail("attribute %q has type %d and %d values", name, uint32(a.typ), n)
		}
		if p.err != nil {
			return nil
		}
		b := p.take(n*size, "an attribute")
		p.take(-(n*size)&3, "an attribute")
		if p.err != nil {
			return nil
		}
		if a.typ == typChar {
			a.text = strings.TrimRight(string(b), "\x00")
		} else {
			a.nums = make([]float64, n)
			for i := range a.nums {
				a.nums[i] = number(a.typ, b[int64(i)*size:])
			}
		}
		attrs[name] = a
	}
	return attrs
}

// variable reads one entry of the list of variables.
func (p *parser) variable(h *header) variable {
	v := variable{name: p.text("a variable's name")}
	rank := p.count("a variable's rank")
	if p.err == nil && rank > min(1024, (p.size-p.at)/4) { // 1024 is NC_MAX_VAR_DIMS
		p.fail("variable %q has %d dimensions", v.name, rank)
	}
	if p.err != nil {
		return v
	}
	for i := range rank {
		d := p.count("a dimension's number")
		if p.err == nil && d >= int64(len(h.dims)) {
			p.fail("variable %q uses dimension %d; the file has %d", v.name, d, len(h.dims))
		}
		if p.err != nil {
			return v
		}
		v.dims = append(v.dims, int(d))
		if h.dims[d].record {
			v.record = true
			if i > 0 {
				p.fail("variable %q has the record dimension in place %d; want it first", v.name, i+1)
			}
		}
	}
	v.attrs = p.attributes()
	v.typ = typ(p.u32("a variable's type"))
	if p.err == nil && v.typ.size() == 0 {
		p.fail("variable %q has type %d", v.name, uint32(v.typ))
	}
	p.count("a variable's size") // not to be relied on above 4 GB: computed anew
	if p.far {
		p.wide, v.begin = p.offset()
	} else {
		v.begin = int64(p.u32("a variable's place"))
	}
	if p.err == nil {
		p.setSize(h, &v)
	}
	return v
}

// offset reads a place of 8 bytes, whatever the width of counts.
func (p *parser) offset() (wide bool, at int64) {
	wide, p.wide = p.wide, true
	return wide, p.count("a variable's place")
}

// setSize works out the bytes of the variable, or of one of its records.
func (p *parser) setSize(h *header, v *variable) {
	v.vsize = v.typ.size()
	for _, d := range v.dims {
		if h.dims[d].record {
			continue
		}
		if n := h.dims[d].length; n > math.MaxInt64/8/max(v.vsize, 1) {
			p.fail("variable %q is larger than any file", v.name)
			return
		}
		v.vsize *= h.dims[d].length
	}
}

// setRecords works out the size of a record and, where the writer left it
// open, the number of records. Each variable's part of a record is padded to
// 4 bytes, unless there is only one such variable.
func (h *header) setRecords(name string, size, records int64) error {
	alone, count, begin := int64(0), 0, int64(math.MaxInt64)
	for _, v := range h.vars {
		if !v.record {
			continue
		}
		count++
		alone = v.vsize
		begin = min(begin, v.begin)
		padded := (v.vsize + 3) &^ 3
		if h.recordSize > math.MaxInt64-padded {
			return fmt.Errorf("%s: a record is larger than any file", name)
		}
		h.recordSize += padded
	}
	if count == 1 {
		h.recordSize = alone
	}
	if records >= 0 {
		return nil
	}
	records = 0
	if h.recordSize > 0 && begin <= size {
		records = (size - begin) / h.recordSize
	}
	for i := range h.dims {
		if h.dims[i].record {
			h.dims[i].length = records
		}
	}
	return nil
}

// place returns where element first of a variable's record rec lies, and an
// error when n bytes from there are not in the file. Variables without
// records have only record 0.
func (h *header) place(v *variable, rec, first, n, size int64) (int64, error) {
	over := func() (int64, error) {
		return 0, fmt.Errorf("variable %q, record %d: its values from byte %d on lie beyond the end of the file (%d bytes); is it cut short?", v.name, rec, v.begin, size)
	}
	if v.begin < 0 || v.begin > size || rec > 0 && rec > (size-v.begin)/max(h.recordSize, 1) {
		return over()
	}
	at := v.begin
	if v.record {
		at += rec * h.recordSize
	}
	skip := first * v.typ.size()
	if skip < 0 || n < 0 || skip > size-at || n > size-at-skip {
		return over()
	}
	return at + skip, nil
}
