package geotiff

import (
	"bytes"
	"encoding/binary"
	"runtime"
	"strings"
	"testing"
)

// tiny is a small file with everything a file may hold.
func tiny() plan {
	p := small(float32s)
	p.rows, p.cols, p.bands, p.blockH = 7, 5, 2, 3
	p.extra = []entry{text(tagMetadata, `<GDALMetadata><Item name="SCALE" sample="1" role="scale">0.5</Item></GDALMetadata>`)}
	return p
}

// readSome opens bytes and reads the first and last row of the outermost
// layers. Whatever the bytes, it must return.
func readSome(b []byte) error {
	f, err := Open(bytes.NewReader(b), int64(len(b)), "x.tif", Options{CacheBytes: 1 << 20})
	if err != nil {
		return err
	}
	w := f.Frame()
	if w.Cols > 1<<20 {
		return nil
	}
	vals, has := make([]float32, w.Cols), make([]bool, w.Cols)
	for _, layer := range []int{0, f.Count() - 1} {
		for _, row := range []int{0, w.Rows - 1} {
			if e := f.Read(layer, row, 1, vals, has); e != nil {
				err = e
			}
		}
	}
	f.Info()
	return err
}

func TestReadCutShort(t *testing.T) {
	for _, tile := range []int{0, 16} {
		p := tiny()
		if p.tileW = tile; tile > 0 {
			p.comp, p.predictor, p.blockH, p.big = compDeflate, 3, 16, true
		}
		b := p.build()
		if err := readSome(b); err != nil {
			t.Fatal(err)
		}
		for n := range b {
			err := readSome(b[:n])
			if err == nil || !strings.HasPrefix(err.Error(), "x.tif: ") {
				t.Fatalf("cut to %d bytes: error %v", n, err)
			}
		}
	}
}

func TestReadDamaged(t *testing.T) {
	for _, comp := range []uint16{compNone, compDeflate, compLZW, compZstd, compPackBits} {
		p := tiny()
		p.comp = comp
		b := p.build()
		for i := range b {
			for _, x := range []byte{0x01, 0x80, 0xff} {
				c := bytes.Clone(b)
				c[i] ^= x
				readSome(c) // must not panic
			}
		}
	}
}

func TestOpenLies(t *testing.T) {
	p := tiny()
	for _, c := range []struct {
		name  string
		extra []entry
		err   string
	}{
		{"huge", []entry{p.longs(tagImageWidth, 2e9), p.longs(tagImageLength, 2e9)}, "need 666666667 of each"},
		{"no rows", []entry{p.longs(tagImageLength, 0)}, "× 0 rows"},
		{"more rows than strips", []entry{p.longs(tagImageLength, 1000)}, "need 334 of each"},
		{"huge tiles", []entry{p.longs(tagTileWidth, 1<<30), p.longs(tagTileLength, 1<<30), p.longs(tagTileOffsets, 8), p.longs(tagTileByteCounts, 8)}, "decode to more than 256 MB"},
		{"tiles without width", []entry{p.longs(tagTileWidth, 0)}, "blocks of 0 columns"},
		{"bands stored in two ways", []entry{p.shorts(tagBitsPerSample, 32, 16)}, "different ways"},
		{"12 bits", []entry{p.shorts(tagBitsPerSample, 12, 12), p.shorts(tagSampleFormat, 1, 1)}, "12 bits"},
		{"half floats", []entry{p.shorts(tagBitsPerSample, 16, 16)}, "16 bits in format 3"},
		{"JPEG", []entry{p.shorts(tagCompression, 7)}, "compression 7 (JPEG)"},
		{"unknown compression", []entry{p.shorts(tagCompression, 999)}, "compression 999 (unknown)"},
		{"predictor 9", []entry{p.shorts(tagCompression, 8), p.shorts(tagPredictor, 9)}, "predictor 9"},
		{"planar 3", []entry{p.shorts(tagPlanarConfig, 3)}, "planar configuration 3"},
		{"fill order", []entry{p.shorts(tagFillOrder, 2)}, "fill order 2"},
		{"nodata", []entry{text(tagNoData, "none")}, `"none"`},
		{"metadata", []entry{text(tagMetadata, "<GDALMetadata><Item")}, "well-formed"},
		{"scale", []entry{text(tagMetadata, `<GDALMetadata><Item sample="0" role="scale">x</Item></GDALMetadata>`)}, `scale "x"`},
		{"float width", []entry{{tagImageWidth, 12, 1, make([]byte, 8)}}, "want whole numbers"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := p
			p.extra = c.extra
			err := readSome(p.build())
			if err == nil || !strings.Contains(err.Error(), c.err) {
				t.Errorf("error %v, want one with %q", err, c.err)
			}
		})
	}
}

func TestOpenWrongByteOrder(t *testing.T) {
	b := tiny().build()
	copy(b, "MM\x00*")
	if err := readSome(b); err == nil || !strings.Contains(err.Error(), "but the file has") {
		t.Error(err)
	}
}

func TestOpenLoop(t *testing.T) {
	p := tiny()
	b := p.build()
	at := binary.LittleEndian.Uint32(b[4:])
	copy(b[len(b)-4:], p.order.AppendUint32(nil, at))
	if err := readSome(b); err == nil || !strings.Contains(err.Error(), "comes back") {
		t.Error(err)
	}
}

// TestOpenAllocates checks that headers that promise much do not make the
// reader allocate much.
func TestOpenAllocates(t *testing.T) {
	p := tiny()
	p.comp = compDeflate
	p.extra = []entry{p.longs(tagImageWidth, 4000), p.longs(tagImageLength, 4000), p.longs(tagRowsPerStrip, 4000),
		p.longs(tagStripOffsets, 8), p.longs(tagStripByteCounts, 40)}
	b := p.build()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	err := readSome(b)
	runtime.ReadMemStats(&after)
	if err == nil || !strings.Contains(err.Error(), "cannot decode to") {
		t.Error(err)
	}
	if got := after.TotalAlloc - before.TotalAlloc; got > 4<<20 {
		t.Errorf("%d bytes were allocated", got)
	}
}

func FuzzDecode(f *testing.F) {
	for _, comp := range []uint16{compNone, compDeflate, compLZW, compZstd, compPackBits} {
		p := tiny()
		p.comp = comp
		f.Add(p.build())
		p.tileW, p.blockH, p.big, p.order, p.apart = 16, 16, true, binary.BigEndian, true
		f.Add(p.build())
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		if err := readSome(b); err != nil && !strings.HasPrefix(err.Error(), "x.tif: ") {
			t.Errorf("no name in %q", err)
		}
	})
}
