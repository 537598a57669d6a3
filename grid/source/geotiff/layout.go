package geotiff

import (
	"fmt"
	"math"
)

// sample is a way of storing one number.
type sample uint8

const (
	uint8s sample = iota + 1
	int8s
	uint16s
	int16s
	uint32s
	int32s
	float32s
	float64s
)

func (k sample) size() int {
	return [...]int{0, 1, 1, 2, 2, 4, 4, 4, 8}[k]
}

func (k sample) String() string {
	return [...]string{"", "uint8", "int8", "uint16", "int16", "uint32", "int32", "float32", "float64"}[k]
}

// Compression schemes: TIFF 6.0; 8 by TIFF Technical Note 2; 32946 its
// unregistered elder; 50000 as registered by libtiff.
const (
	compNone       = 1
	compLZW        = 5
	compDeflate    = 8
	compPackBits   = 32773
	compDeflateOld = 32946
	compZstd       = 50000
)

var compNames = map[uint64]string{
	2: "CCITT Huffman", 3: "CCITT fax 3", 4: "CCITT fax 4", 6: "JPEG", 7: "JPEG",
	34887: "LERC", 34925: "LZMA", 50001: "WebP",
}

// page is one image of the file: how its blocks are laid out and stored.
type page struct {
	at           int64 // place of its directory
	cols, rows   int
	bands        int
	kind         sample
	comp         uint64
	predictor    uint64
	apart        bool // planar configuration 2: each band in blocks of its own
	tiled        bool
	blockW       int
	blockH       int // rows of a strip or tile
	subH         int // rows decoded at a time: blockH, or less in uncompressed strips
	across, down int // blocks
	offsets      []uint64
	counts       []uint64
	firstBlock   int // number of the page's first block in the whole file
}

// maxBlock bounds a decoded block in bytes. A larger strip or tile asks for
// more memory than a run may use.
const maxBlock = 256 << 20

// readPage reads the layout of one directory and checks it against the size
// of the file.
func (s *stream) readPage(d directory) (*page, error) {
	p := &page{at: d.at}
	if err := s.readShape(d, p); err != nil {
		return nil, err
	}
	if err := s.uniform(d); err != nil {
		return nil, err
	}
	if err := p.checkCoding(); err != nil {
		return nil, s.fail(d, "%w", err)
	}
	if err := s.readBlocks(d, p); err != nil {
		return nil, err
	}
	return p, nil
}

// fail returns an error about an image.
func (s *stream) fail(d directory, format string, args ...any) error {
	return fmt.Errorf("%s: image at byte %d: "+format, append([]any{s.name, d.at}, args...)...)
}

// readShape reads how many cells and bands there are, and how their numbers are
// stored.
func (s *stream) readShape(d directory, p *page) (err error) {
	var bits, format, width, height, bands, fill, planar uint64
	for _, t := range []struct {
		tag uint16
		to  *uint64
		def uint64
	}{
		{tagImageWidth, &width, 0}, {tagImageLength, &height, 0}, {tagBitsPerSample, &bits, 1},
		{tagSampleFormat, &format, 1}, {tagCompression, &p.comp, compNone}, {tagPredictor, &p.predictor, 1},
		{tagFillOrder, &fill, 1}, {tagPlanarConfig, &planar, 1}, {tagSamplesPerPixel, &bands, 1},
	} {
		if *t.to, err = s.one(d, t.tag, t.def); err != nil {
			return err
		}
	}
	switch {
	case width < 1 || height < 1 || width > math.MaxInt32 || height > math.MaxInt32:
		return s.fail(d, "%d columns × %d rows; want at least 1 and at most %d", width, height, math.MaxInt32)
	case bands < 1 || bands > 65535:
		return s.fail(d, "%d bands; want 1 to 65535", bands)
	case planar != 1 && planar != 2:
		return s.fail(d, "planar configuration %d; want 1 or 2", planar)
	case fill != 1:
		return s.fail(d, "fill order %d is not supported; rewrite the file with gdal_translate", fill)
	}
	p.cols, p.rows, p.bands, p.apart = int(width), int(height), int(bands), planar == 2 && bands > 1
	if p.kind = kindOf(bits, format); p.kind == 0 {
		return s.fail(d, "samples of %d bits in format %d are not supported; want 8, 16 or 32 bit whole numbers, or 32 or 64 bit floating point; convert with gdal_translate -ot Float32", bits, format)
	}
	return nil
}

func kindOf(bits, format uint64) sample {
	switch {
	case format == 3 && bits == 32:
		return float32s
	case format == 3 && bits == 64:
		return float64s
	case format == 2:
		return map[uint64]sample{8: int8s, 16: int16s, 32: int32s}[bits]
	case format == 1 || format == 4:
		return map[uint64]sample{8: uint8s, 16: uint16s, 32: uint32s}[bits]
	}
	return 0
}

// uniform checks that all bands are stored the same way.
func (s *stream) uniform(d directory) error {
	for _, tag := range []uint16{tagBitsPerSample, tagSampleFormat} {
		all, err := s.uints(d, tag)
		if err != nil {
			return err
		}
		for _, v := range all {
			if v != all[0] {
				return s.fail(d, "the bands are stored in different ways (tag %d)", tag)
			}
		}
	}
	return nil
}

func (p *page) checkCoding() error {
	switch p.comp {
	case compNone, compLZW, compDeflate, compDeflateOld, compPackBits, compZstd:
	default:
		name := compNames[p.comp]
		if name == "" {
			name = "unknown"
		}
		return fmt.Errorf("compression %d (%s) is not supported; rewrite the file with gdal_translate -co COMPRESS=DEFLATE", p.comp, name)
	}
	if p.comp == compNone || p.comp == compPackBits {
		p.predictor = 1 // the tag belongs to LZW and its successors only
	}
	switch {
	case p.predictor == 1, p.predictor == 2 && p.kind.size() <= 4:
	case p.predictor == 2 && p.kind == float64s:
	case p.predictor == 3 && (p.kind == float32s || p.kind == float64s):
	default:
		return fmt.Errorf("predictor %d with %s samples is not supported", p.predictor, p.kind)
	}
	return nil
}

// perBlock returns the number of bands that share a block.
func (p *page) perBlock() int {
	if p.apart {
		return 1
	}
	return p.bands
}

// rowBytes returns the size of one decoded row of a block.
func (p *page) rowBytes() int { return p.blockW * p.perBlock() * p.kind.size() }

func ceilDiv(a, b int) int { return (a + b - 1) / b }
