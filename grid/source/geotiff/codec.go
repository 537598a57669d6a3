package geotiff

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"sync"

	"github.com/klauspost/compress/zlib"
	"github.com/klauspost/compress/zstd"
	"golang.org/x/image/tiff/lzw"
)

// expansion bounds how far a scheme can grow its input, so that a short
// block cannot ask for a large buffer. Deflate: 258 bytes for 2 bits, 1032
// (RFC 1951). LZW: no entry of the table is longer than 4096 bytes, and a code
// takes more than one. PackBits: 128 bytes for 2 (TIFF 6.0 section 9).
// Zstandard: a block of 4 bytes may repeat one byte 128 KB long (RFC 8878,
// RLE_Block).
func expansion(comp uint64) int64 {
	switch comp {
	case compNone:
		return 1
	case compPackBits:
		return 64
	case compLZW:
		return 4096
	case compZstd:
		return 1 << 15
	}
	return 1032
}

var (
	inflaters sync.Pool // of io.ReadCloser that are zlib.Resetter
	zstds     sync.Pool // of *zstd.Decoder
)

// unpack fills dst with the decoded bytes of src. Bytes beyond dst are
// ignored; fewer are an error.
func unpack(comp uint64, dst, src []byte) error {
	switch comp {
	case compNone:
		if copy(dst, src) < len(dst) {
			return short(len(src), len(dst))
		}
		return nil
	case compDeflate, compDeflateOld:
		return inflate(dst, src)
	case compLZW:
		return unpackLZW(dst, src)
	case compPackBits:
		return unpackBits(dst, src)
	case compZstd:
		return unpackZstd(dst, src)
	}
	return fmt.Errorf("compression %d", comp) // refused on opening
}

func short(got, want int) error {
	return fmt.Errorf("the block holds %d bytes of %d", got, want)
}

func readAll(r io.Reader, dst []byte) error {
	n, err := io.ReadFull(r, dst)
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return short(n, len(dst))
	}
	return err
}

func inflate(dst, src []byte) error {
	in := bytes.NewReader(src)
	z, ok := inflaters.Get().(io.ReadCloser)
	var err error
	if ok {
		err = z.(zlib.Resetter).Reset(in, nil)
	} else {
		z, err = zlib.NewReader(in)
	}
	if err != nil {
		return fmt.Errorf("deflate: %w", err)
	}
	if err = readAll(z, dst); err != nil {
		return fmt.Errorf("deflate: %w", err)
	}
	inflaters.Put(z)
	return nil
}

func unpackLZW(dst, src []byte) error {
	if len(src) > 1 && src[0] == 0 && src[1]&1 == 1 {
		return errors.New("LZW with bits in the old reversed order; rewrite the file with gdal_translate")
	}
	z := lzw.NewReader(bytes.NewReader(src), lzw.MSB, 8)
	defer z.Close()
	if err := readAll(z, dst); err != nil {
		return fmt.Errorf("LZW: %w", err)
	}
	return nil
}

func unpackZstd(dst, src []byte) error {
	z, ok := zstds.Get().(*zstd.Decoder)
	if !ok {
		var err error
		if z, err = zstd.NewReader(nil, zstd.WithDecoderConcurrency(1), zstd.WithDecoderLowmem(true), zstd.WithDecoderMaxWindow(maxBlock)); err != nil {
			return fmt.Errorf("zstd: %w", err)
		}
	}
	if err := z.Reset(bytes.NewReader(src)); err != nil {
		return fmt.Errorf("zstd: %w", err)
	}
	if err := readAll(z, dst); err != nil {
		return fmt.Errorf("zstd: %w", err)
	}
	zstds.Put(z)
	return nil
}

// unpackBits undoes PackBits, TIFF 6.0 section 9.
func unpackBits(dst, src []byte) error {
	at := 0
	for at < len(dst) {
		if len(src) < 2 {
			return fmt.Errorf("PackBits: %w", short(at, len(dst)))
		}
		n := int(int8(src[0]))
		src = src[1:]
		switch {
		case n >= 0:
			if len(src) < n+1 {
				return fmt.Errorf("PackBits: %w", short(at, len(dst)))
			}
			at += copy(dst[at:], src[:n+1])
			src = src[n+1:]
		case n > -128:
			end := min(len(dst), at+1-n)
			for ; at < end; at++ {
				dst[at] = src[0]
			}
			src = src[1:]
		}
	}
	return nil
}
