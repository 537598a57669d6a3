package geotiff

import "math"

// readBlocks reads where the strips or tiles lie, and how large they are.
func (s *stream) readBlocks(d directory, p *page) (err error) {
	offTag, countTag := uint16(tagStripOffsets), uint16(tagStripByteCounts)
	if _, p.tiled = d.fields[tagTileWidth]; p.tiled {
		offTag, countTag = tagTileOffsets, tagTileByteCounts
	}
	if err := s.readBlockShape(d, p); err != nil {
		return err
	}
	if p.offsets, err = s.uints(d, offTag); err != nil {
		return err
	}
	if p.counts, err = s.uints(d, countTag); err != nil {
		return err
	}
	want := int64(p.across) * int64(p.down) // each below 2^31
	if p.apart {
		want *= int64(p.bands)
	}
	if int64(len(p.offsets)) != want || int64(len(p.counts)) != want {
		return s.fail(d, "%d block offsets and %d block sizes; %d × %d cells in blocks of %d × %d need %d of each",
			len(p.offsets), len(p.counts), p.rows, p.cols, p.blockH, p.blockW, want)
	}
	row := int64(p.blockW) * int64(p.perBlock()) * int64(p.kind.size()) // below 2^51
	if p.comp == compNone && !p.tiled && row*int64(p.blockH) > subStrip {
		p.subH = int(max(1, subStrip/row))
	}
	if p.subH > maxBlock || row > maxBlock/int64(p.subH) {
		return s.fail(d, "blocks of %d rows × %d columns × %d bands decode to more than %d MB; rewrite the file with gdal_translate -co TILED=YES",
			p.subH, p.blockW, p.perBlock(), maxBlock>>20)
	}
	return nil
}

// readBlockShape reads how many cells a strip or tile has.
func (s *stream) readBlockShape(d directory, p *page) (err error) {
	w, h := uint64(p.cols), uint64(0)
	if p.tiled {
		if w, err = s.one(d, tagTileWidth, 0); err == nil {
			h, err = s.one(d, tagTileLength, 0)
		}
	} else {
		h, err = s.one(d, tagRowsPerStrip, uint64(p.rows))
		h = min(h, uint64(p.rows))
	}
	if err != nil {
		return err
	}
	if w < 1 || h < 1 || w > math.MaxInt32 || h > math.MaxInt32 {
		return s.fail(d, "blocks of %d columns × %d rows", w, h)
	}
	p.blockW, p.blockH, p.subH = int(w), int(h), int(h)
	p.across, p.down = ceilDiv(p.cols, p.blockW), ceilDiv(p.rows, p.blockH)
	return nil
}

// subStrip is about how many bytes of an uncompressed strip are read at a
// time.
const subStrip = 1 << 20
