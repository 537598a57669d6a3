package geotiff

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"strings"
	"testing"
)

// small is a lopsided grid: 37 rows, 53 columns, steps 0.5 and 0.25.
func small(kind sample) plan {
	return plan{
		order: binary.LittleEndian, kind: kind, comp: compNone, predictor: 1, rows: 37, cols: 53, bands: 3, blockH: 5,
		value: func(band, row, col int) float64 {
			if (row*53+col)%11 == 4 {
				return -9 // nodata
			}
			v := float64((band*61+row*7+col*3)%120 - 5)
			if kind == float32s || kind == float64s {
				v += 0.625
			}
			return v
		},
	}
}

func open(t testing.TB, b []byte, opts Options) *File {
	t.Helper()
	f, err := Open(bytes.NewReader(b), int64(len(b)), "test.tif", opts)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// check reads every layer in blocks of n rows and compares with want.
func check(t *testing.T, f *File, rows, cols, n int, want func(layer, row, col int) (float64, bool)) {
	t.Helper()
	for layer := range f.Count() {
		for first := 0; first < rows; first += n {
			n := min(n, rows-first)
			vals, has := make([]float32, n*cols), make([]bool, n*cols)
			for i := range vals {
				vals[i], has[i] = 1e9, true // to see what is not written
			}
			if err := f.Read(layer, first, n, vals, has); err != nil {
				t.Fatal(err)
			}
			for i, v := range vals {
				w, ok := want(layer, first+i/cols, i%cols)
				if ok != has[i] || v != float32(w) && ok || !ok && v != 0 {
					t.Fatalf("layer %d, row %d, column %d: %v %v, want %v %v", layer, first+i/cols, i%cols, v, has[i], w, ok)
				}
			}
		}
	}
}

func (p plan) want(layer, row, col int) (float64, bool) {
	v := p.value(layer%p.bands, row, col)
	return v, v != -9
}

func TestReadEveryLayout(t *testing.T) {
	for _, kind := range []sample{uint8s, int8s, uint16s, int16s, uint32s, int32s, float32s, float64s} {
		for _, comp := range []uint16{compNone, compLZW, compDeflate, compDeflateOld, compPackBits, compZstd} {
			for _, predictor := range []uint16{1, 2, 3} {
				if predictor > 1 && (comp == compNone || comp == compPackBits) || predictor == 3 && kind < float32s {
					continue
				}
				for variant := range 16 {
					p := small(kind)
					if kind == uint8s || kind == uint16s || kind == uint32s {
						inner := p.value
						p.value = func(b, r, c int) float64 { return inner(b, r, c) + 9 } // nodata becomes 0
						p.extra = []entry{text(tagNoData, "0")}
					}
					p.comp, p.predictor = comp, predictor
					p.apart = variant&1 != 0
					if variant&2 != 0 {
						p.tileW, p.blockH = 16, 32
					}
					if variant&4 != 0 {
						p.order = binary.BigEndian
					}
					p.big = variant&8 != 0
					name := fmt.Sprintf("%v/%d/%d/apart=%v/tile=%d/%v/big=%v", kind, comp, predictor, p.apart, p.tileW, p.order, p.big)
					t.Run(name, func(t *testing.T) {
						want := p.want
						if len(p.extra) > 0 {
							want = func(l, r, c int) (float64, bool) { v := p.value(l, r, c); return v, v != 0 }
						}
						check(t, open(t, p.build(), Options{}), p.rows, p.cols, 6, want)
					})
				}
			}
		}
	}
}

func TestReadFloatPredictorByHand(t *testing.T) {
	// 1.0 is 3f800000 and 1.5 is 3fc00000 (IEEE 754); by planes 3f 3f 80 c0 0 0 0 0.
	b := []byte{0x3f, 0x00, 0x41, 0x40, 0x40, 0, 0, 0}
	undoFloat(b, 4, 1, make([]byte, 8))
	if want := []byte{0, 0, 0x80, 0x3f, 0, 0, 0xc0, 0x3f}; !bytes.Equal(b, want) {
		t.Errorf("% x, want % x", b, want)
	}
}

func TestUnpackBitsExample(t *testing.T) {
	// Worked example of PackBits in Apple Technical Note TN1023, from memory.
	in := []byte{0xFE, 0xAA, 0x02, 0x80, 0x00, 0x2A, 0xFD, 0xAA, 0x03, 0x80, 0x00, 0x2A, 0x22, 0xF7, 0xAA}
	want := []byte{0xAA, 0xAA, 0xAA, 0x80, 0x00, 0x2A, 0xAA, 0xAA, 0xAA, 0xAA, 0x80, 0x00, 0x2A, 0x22,
		0xAA, 0xAA, 0xAA, 0xAA, 0xAA, 0xAA, 0xAA, 0xAA, 0xAA, 0xAA}
	got := make([]byte, len(want))
	if err := unpackBits(got, in); err != nil || !bytes.Equal(got, want) {
		t.Errorf("% x, %v", got, err)
	}
	if err := unpackBits(make([]byte, len(want)+1), in); err == nil {
		t.Error("a short block was accepted")
	}
}

func TestReadScaleAndOffset(t *testing.T) {
	p := small(int16s)
	p.extra = []entry{text(tagMetadata, `<GDALMetadata>
  <Item name="OFFSET" sample="1" role="offset">10</Item>
  <Item name="SCALE" sample="1" role="scale">0.5</Item>
  <Item name="UNITTYPE" sample="0" role="unittype">K</Item>
  <Item name="DESCRIPTION" sample="2" role="description">March &amp; more</Item>
  <Item name="AREA">all</Item>
</GDALMetadata>`)}
	f := open(t, p.build(), Options{})
	check(t, f, p.rows, p.cols, 37, func(layer, row, col int) (float64, bool) {
		v, ok := p.want(layer, row, col)
		if layer == 1 {
			v = v*0.5 + 10
		}
		return v, ok
	})
	if info := f.Info(); info.Unit != "K" || info.Names[2] != "March & more" || info.NoData != "-9" || info.BlockRows != 5 {
		t.Errorf("%+v", info)
	}
}

func TestReadStack(t *testing.T) {
	p := small(float32s)
	p.bands, p.pages = 1, 4
	f := open(t, p.build(), Options{})
	if f.Count() != 4 {
		t.Fatalf("%d layers", f.Count())
	}
	check(t, f, p.rows, p.cols, 4, p.want)
	p.extra = []entry{p.longs(tagNewSubfileType, 1)}
	b := p.build()
	if _, err := Open(bytes.NewReader(b), int64(len(b)), "x", Options{}); err == nil || !strings.Contains(err.Error(), "full resolution") {
		t.Errorf("overviews only: %v", err)
	}
	p.extra = []entry{p.longs(tagNewSubfileType, 4)}
	b = p.build()
	if _, err := Open(bytes.NewReader(b), int64(len(b)), "x", Options{}); err == nil || !strings.Contains(err.Error(), "mask") {
		t.Errorf("mask: %v", err)
	}
}

func TestReadMissing(t *testing.T) {
	special := []float64{math.NaN(), math.Inf(1), math.Inf(-1), -9, -3.4028234663852886e38, 4}
	for _, nodata := range []string{"-9", "nan", "-3.40282e+38"} {
		for _, kind := range []sample{float32s, float64s} {
			p := small(kind)
			p.value = func(_, _, col int) float64 { return special[col%len(special)] }
			p.extra = []entry{text(tagNoData, nodata)}
			check(t, open(t, p.build(), Options{}), p.rows, p.cols, 10, func(_, _, col int) (float64, bool) {
				v := special[col%len(special)]
				switch {
				case math.IsNaN(v) || math.IsInf(v, 0):
					return 0, false
				case v == -9:
					return v, nodata != "-9"
				case v < -1e30:
					return v, nodata != "-3.40282e+38"
				}
				return v, true
			})
		}
	}
}

func TestReadSparse(t *testing.T) {
	p := small(float32s)
	p.apart, p.comp = true, compDeflate
	offsets, counts := make([]int, 24), make([]int, 24)
	p.extra = []entry{p.longs(tagStripOffsets, offsets...), p.longs(tagStripByteCounts, counts...)}
	check(t, open(t, p.build(), Options{}), p.rows, p.cols, 7, func(_, _, _ int) (float64, bool) { return 0, false })
}

// TestReadUncompressedStrip reads one strip as large as the image a piece at a
// time.
func TestReadUncompressedStrip(t *testing.T) {
	p := small(float64s)
	p.rows, p.cols, p.bands, p.blockH = 1200, 211, 2, 1200
	f := open(t, p.build(), Options{})
	if got := f.bands[0].page.subH; got < 2 || got > 400 {
		t.Fatalf("pieces of %d rows", got)
	}
	check(t, f, p.rows, p.cols, 17, p.want)
}
