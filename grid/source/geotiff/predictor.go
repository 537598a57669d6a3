package geotiff

import "encoding/binary"

// settle turns a decoded block into little-endian samples: it undoes the
// predictor and the file's byte order. stride is the number of bands that
// share a row; tmp holds at least one row.
func (p *page) settle(b []byte, order binary.ByteOrder, tmp []byte) {
	row, size, stride := p.rowBytes(), p.kind.size(), p.perBlock()
	if p.predictor != 3 && order == binary.BigEndian {
		swap(b, size)
	}
	if p.predictor == 1 {
		return
	}
	for len(b) >= row {
		if p.predictor == 2 {
			undoDifference(b[:row], size, stride)
		} else {
			undoFloat(b[:row], size, stride, tmp[:row])
		}
		b = b[row:]
	}
}

// swap reverses the bytes of every sample.
func swap(b []byte, size int) {
	switch size {
	case 2:
		for i := 0; i+2 <= len(b); i += 2 {
			b[i], b[i+1] = b[i+1], b[i]
		}
	case 4:
		for i := 0; i+4 <= len(b); i += 4 {
			binary.LittleEndian.PutUint32(b[i:], binary.BigEndian.Uint32(b[i:]))
		}
	case 8:
		for i := 0; i+8 <= len(b); i += 8 {
			binary.LittleEndian.PutUint64(b[i:], binary.BigEndian.Uint64(b[i:]))
		}
	}
}

// undoDifference adds to each sample the one a pixel before it, as whole
// numbers that wrap. TIFF 6.0 section 14.
func undoDifference(b []byte, size, stride int) {
	le := binary.LittleEndian
	switch size {
	case 1:
		for i := stride; i < len(b); i++ {
			b[i] += b[i-stride]
		}
	case 2:
		if stride == 1 { // a sum in a register is several times as fast
			sum := uint16(0)
			for ; len(b) >= 2; b = b[2:] {
				sum += le.Uint16(b)
				le.PutUint16(b, sum)
			}
			return
		}
		for i, j := 0, 2*stride; j+2 <= len(b); i, j = i+2, j+2 {
			le.PutUint16(b[j:], le.Uint16(b[j:])+le.Uint16(b[i:]))
		}
	case 4:
		for i, j := 0, 4*stride; j+4 <= len(b); i, j = i+4, j+4 {
			le.PutUint32(b[j:], le.Uint32(b[j:])+le.Uint32(b[i:]))
		}
	case 8:
		for i, j := 0, 8*stride; j+8 <= len(b); i, j = i+8, j+8 {
			le.PutUint64(b[j:], le.Uint64(b[j:])+le.Uint64(b[i:]))
		}
	}
}

// undoFloat undoes the floating-point predictor: a row holds the most
// significant bytes of all samples, then the next, and so on, each byte as
// its difference to the byte stride before it, whatever the byte order of
// the file. TIFF Technical Note 3.
func undoFloat(b []byte, size, stride int, tmp []byte) {
	for i := stride; i < len(b); i++ {
		b[i] += b[i-stride]
	}
	copy(tmp, b)
	n := len(b) / size
	if size == 4 {
		b0, b1, b2, b3 := tmp[:n], tmp[n:2*n], tmp[2*n:3*n], tmp[3*n:4*n]
		for i := range n {
			v := uint32(b0[i])<<24 | uint32(b1[i])<<16 | uint32(b2[i])<<8 | uint32(b3[i])
			binary.LittleEndian.PutUint32(b[4*i:], v)
		}
		return
	}
	for i := range n {
		for k := range size {
			b[i*size+size-1-k] = tmp[k*n+i]
		}
	}
}
