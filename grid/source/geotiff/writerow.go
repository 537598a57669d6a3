package geotiff

import (
	"encoding/binary"
	"fmt"
	"math"
)

// appendRow appends a row to a strip, stored and with its predictor.
func (w *Writer) appendRow(to []byte, vals []float32, has []bool) ([]byte, error) {
	if w.opts.Store == Int16 {
		return w.appendInt16(to, vals, has)
	}
	return appendFloat32(to, vals, has)
}

// appendInt16 stores whole numbers as differences (TIFF 6.0 section 14).
func (w *Writer) appendInt16(to []byte, vals []float32, has []bool) ([]byte, error) {
	last := int16(0)
	for i, v := range vals {
		raw := int16(NoData)
		if has[i] {
			r := math.RoundToEven((float64(v) - w.opts.Offset) / w.opts.Scale)
			if !(r >= math.MinInt16 && r <= math.MaxInt16) || r == NoData {
				return to, fmt.Errorf("column %d: %g cannot be stored as int16 with scale %g and offset %g", i, v, w.opts.Scale, w.opts.Offset)
			}
			raw = int16(r)
		}
		to = binary.LittleEndian.AppendUint16(to, uint16(raw-last))
		last = raw
	}
	return to, nil
}

// appendFloat32 stores floats by TIFF Technical Note 3: all most significant
// bytes first, then the next ones, as differences of neighbouring bytes.
func appendFloat32(to []byte, vals []float32, has []bool) ([]byte, error) {
	n, from := len(vals), len(to)
	for range 4 * n {
		to = append(to, 0)
	}
	row := to[from:]
	for i, v := range vals {
		if !has[i] {
			v = NoData
		} else if v == NoData || math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) {
			return to, fmt.Errorf("column %d: %g cannot be stored beside the nodata value %d", i, v, NoData)
		}
		b := math.Float32bits(v)
		row[i], row[n+i], row[2*n+i], row[3*n+i] = byte(b>>24), byte(b>>16), byte(b>>8), byte(b)
	}
	for i := len(row) - 1; i > 0; i-- {
		row[i] -= row[i-1]
	}
	return to, nil
}
