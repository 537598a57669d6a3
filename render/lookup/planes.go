package lookup

import "errors"

// A plane holds a whole number for some of the cells of a block, as how far
// each is from what its neighbours foretell: the mean, rounded down, of the
// cell to the left and the one above; on the first row the left one, in the
// first column the one above, 0 in the corner. Cells without a number take
// what is foretold, and have no place in the plane. Differences are zigzag
// numbers (0, −1, 1, −2, … as 0, 1, 2, 3, …) modulo 2 to the power of the
// plane's bits, all their low bytes first, then, in planes of two bytes, all
// their high bytes.
type plane struct {
	rows, cols int
	bytes      int // 1 or 2
}

var errShort = errors.New("it ends early")

// foretell returns what is expected of cell i of values known before it.
func (p plane) foretell(v []int, i int) int {
	switch {
	case i == 0:
		return 0
	case i < p.cols:
		return v[i-1]
	case i%p.cols == 0:
		return v[i-p.cols]
	}
	return (v[i-1] + v[i-p.cols]) >> 1
}

// pack returns the numbers of the cells that have one, a part for every byte
// of a number.
func (p plane) pack(v []int, has []bool) (parts [][]byte) {
	filled := make([]int, len(v))
	parts = make([][]byte, p.bytes)
	for i := range v {
		guess := p.foretell(filled, i)
		filled[i] = guess
		if !has[i] {
			continue
		}
		filled[i] = v[i]
		d := v[i] - guess
		if p.bytes == 1 {
			d = int(int8(d))
		}
		zigzag := d<<1 ^ d>>63
		for k := range parts {
			parts[k] = append(parts[k], byte(zigzag>>(8*k)))
		}
	}
	return parts
}

// take unpacks the numbers at the head of data, foretold ones for the cells
// that have none, and returns what follows.
func (p plane) take(data []byte, has []bool) (v []int, rest []byte, err error) {
	n := count(has)
	if len(data) < n*p.bytes {
		return nil, nil, errShort
	}
	v = make([]int, len(has))
	at := 0
	for i := range v {
		v[i] = p.foretell(v, i)
		if !has[i] {
			continue
		}
		z := int(data[at])
		if p.bytes == 2 {
			z |= int(data[n+at]) << 8
		}
		at++
		v[i] += z>>1 ^ -(z & 1)
		if p.bytes == 1 {
			v[i] &= 0xff
		}
	}
	return v, data[n*p.bytes:], nil
}

func count(has []bool) (n int) {
	for _, ok := range has {
		if ok {
			n++
		}
	}
	return n
}

// likely returns which of the values known before cell i most likely comes
// again: edges between areas run on, so it is the one above where the left one
// has been there too, else the left one. Beyond the edge lies 0.
func likely[T comparable](v []T, cols, i int) T {
	var left, above, corner T
	if i%cols > 0 {
		left = v[i-1]
	}
	if i >= cols {
		above = v[i-cols]
	}
	if i%cols > 0 && i >= cols {
		corner = v[i-cols-1]
	}
	if left == corner {
		return above
	}
	return left
}
