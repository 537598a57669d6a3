package lookup

import "encoding/binary"

// How a cell's region is told.
const (
	likelyRegion = iota
	newRegion
	knownRegion
)

// packRegions returns the parts that tell the regions of the block's cells.
func (b block) packRegions(regionOf []uint32) (parts [][]byte) {
	how, palette := make([]byte, len(regionOf)), map[uint32]uint16{0: 0}
	var added, again []byte
	for i, r := range regionOf {
		if r == likely(regionOf, b.cols, i) {
			continue
		}
		if at, ok := palette[r]; ok {
			how[i] = knownRegion
			again = binary.LittleEndian.AppendUint16(again, at)
			continue
		}
		how[i] = newRegion
		palette[r] = uint16(len(palette))
		added = binary.LittleEndian.AppendUint32(added, r)
	}
	return [][]byte{how, added, again}
}

// takeRegions unpacks the regions and returns what follows.
func (b block) takeRegions(data []byte) (regionOf []uint32, rest []byte, err error) {
	n, times := b.rows*b.cols, [3]int{}
	if len(data) < n {
		return nil, nil, errShort
	}
	how := data[:n]
	for _, h := range how {
		if int(h) >= len(times) {
			return nil, nil, errShort
		}
		times[h]++
	}
	added, again := data[n:], data[n:]
	if len(added) < 4*times[newRegion]+2*times[knownRegion] {
		return nil, nil, errShort
	}
	again = again[4*times[newRegion]:]
	regionOf, rest = make([]uint32, n), again[2*times[knownRegion]:]
	palette := []uint32{0}
	for i, h := range how {
		switch h {
		case likelyRegion:
			regionOf[i] = likely(regionOf, b.cols, i)
		case newRegion:
			regionOf[i] = binary.LittleEndian.Uint32(added)
			palette, added = append(palette, regionOf[i]), added[4:]
		default:
			at := int(binary.LittleEndian.Uint16(again))
			if at >= len(palette) {
				return nil, nil, errShort
			}
			regionOf[i], again = palette[at], again[2:]
		}
	}
	return regionOf, rest, nil
}
