package geotiff

import (
	"bytes"
	"encoding/binary"
	"encoding/xml"
	"math"
	"strconv"
)

// directory returns the bytes of the directory with the values it points to,
// to be written at the end of the file, and the place of the directory.
func (w *Writer) directory() (int64, []byte) {
	d := dirWriter{base: w.out.at, big: w.big}
	if w.out.at%2 == 1 {
		d.heap = append(d.heap, 0) // directories and values begin at even bytes
	}
	n := len(w.layers)
	bits, format, predictor := uint16(32), uint16(3), uint16(3)
	if w.opts.Store == Int16 {
		bits, format, predictor = 16, 2, 2
	}
	planar := uint16(1)
	if n > 1 {
		planar = 2
	}
	var offsets, counts []uint64
	for i := range w.layers {
		offsets = append(offsets, w.layers[i].offsets...)
		counts = append(counts, w.layers[i].counts...)
	}
	box := w.grid.Box()
	d.longs(tagImageWidth, uint32(w.grid.Cols()))
	d.longs(tagImageLength, uint32(w.grid.Rows()))
	d.shorts(tagBitsPerSample, same(bits, n)...)
	d.shorts(tagCompression, compDeflate)
	d.shorts(tagPhotometric, 1)
	d.ascii(tagImageDescription, w.opts.Description)
	d.places(tagStripOffsets, offsets)
	d.shorts(tagSamplesPerPixel, uint16(n))
	d.longs(tagRowsPerStrip, uint32(w.strip))
	d.places(tagStripByteCounts, counts)
	d.shorts(tagPlanarConfig, planar)
	d.shorts(tagPredictor, predictor)
	d.shorts(tagExtraSamples, same(0, n-1)...)
	d.shorts(tagSampleFormat, same(format, n)...)
	d.doubles(tagPixelScale, w.grid.StepLon(), w.grid.StepLat(), 0)
	d.doubles(tagTiepoint, 0, 0, 0, box.West, box.North, 0)
	d.shorts(tagGeoKeys, 1, 1, 0, 4,
		keyModelType, 0, 1, 2, // geographic
		keyRasterType, 0, 1, 1, // PixelIsArea
		keyGeographic, 0, 1, 4326,
		keyAngularUnit, 0, 1, 9102)
	d.ascii(tagMetadata, w.metadata())
	d.ascii(tagNoData, strconv.Itoa(NoData))
	return d.finish()
}

func same(v uint16, n int) []uint16 {
	out := make([]uint16, n)
	for i := range out {
		out[i] = v
	}
	return out
}

// metadata returns the XML of tag 42112, "" when there is nothing to say.
func (w *Writer) metadata() string {
	var b bytes.Buffer
	item := func(name, role string, band int, value string) {
		b.WriteString(`<Item name="` + name + `" sample="` + strconv.Itoa(band) + `" role="` + role + `">`)
		var once bytes.Buffer // escaped twice, as GDAL writes and expects it; a bytes.Buffer takes everything
		xml.EscapeText(&once, []byte(value))
		xml.EscapeText(&b, once.Bytes())
		b.WriteString("</Item>")
	}
	number := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
	for i := range w.layers {
		if i < len(w.opts.Names) && w.opts.Names[i] != "" {
			item("DESCRIPTION", "description", i, w.opts.Names[i])
		}
		if w.opts.Offset != 0 {
			item("OFFSET", "offset", i, number(w.opts.Offset))
		}
		if w.opts.Scale != 1 {
			item("SCALE", "scale", i, number(w.opts.Scale))
		}
		if w.opts.Unit != "" {
			item("UNITTYPE", "unittype", i, w.opts.Unit)
		}
	}
	if b.Len() == 0 {
		return ""
	}
	return "<GDALMetadata>" + b.String() + "</GDALMetadata>"
}

// dirWriter collects the entries of a directory, in rising order of tags,
// and the values that do not fit into them. In BigTIFF counts and places have
// 64 bits instead of 32 (bigtiff.org, "The BigTIFF File Format").
type dirWriter struct {
	base    int64 // place in the file of heap[0]
	big     bool
	heap    []byte
	entries []byte
	count   uint16
}

func (d *dirWriter) add(tag, kind uint16, count int, value []byte) {
	if count == 0 {
		return
	}
	le := binary.LittleEndian
	d.count++
	d.entries = le.AppendUint16(d.entries, tag)
	d.entries = le.AppendUint16(d.entries, kind)
	d.entries = d.word(d.entries, int64(count))
	place := d.word(nil, d.base+int64(len(d.heap)))
	if len(value) <= len(place) {
		clear(place)
		copy(place, value)
		d.entries = append(d.entries, place...)
		return
	}
	d.entries = append(d.entries, place...)
	d.heap = append(d.heap, value...)
	if len(value)%2 == 1 {
		d.heap = append(d.heap, 0)
	}
}

// word appends a count or a place.
func (d *dirWriter) word(to []byte, v int64) []byte {
	if d.big {
		return binary.LittleEndian.AppendUint64(to, uint64(v))
	}
	return binary.LittleEndian.AppendUint32(to, uint32(v))
}

// places adds numbers of the width of the file's places.
func (d *dirWriter) places(tag uint16, v []uint64) {
	kind := uint16(4) // LONG
	if d.big {
		kind = 16 // LONG8
	}
	var b []byte
	for _, x := range v {
		b = d.word(b, int64(x))
	}
	d.add(tag, kind, len(v), b)
}

func (d *dirWriter) shorts(tag uint16, v ...uint16) {
	var b []byte
	for _, x := range v {
		b = binary.LittleEndian.AppendUint16(b, x)
	}
	d.add(tag, 3, len(v), b)
}

func (d *dirWriter) longs(tag uint16, v ...uint32) {
	var b []byte
	for _, x := range v {
		b = binary.LittleEndian.AppendUint32(b, x)
	}
	d.add(tag, 4, len(v), b)
}

func (d *dirWriter) doubles(tag uint16, v ...float64) {
	var b []byte
	for _, x := range v {
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(x))
	}
	d.add(tag, 12, len(v), b)
}

func (d *dirWriter) ascii(tag uint16, text string) {
	if text != "" {
		d.add(tag, 2, len(text)+1, append([]byte(text), 0))
	}
}

// finish returns the place of the directory and heap and directory in a row.
func (d *dirWriter) finish() (int64, []byte) {
	at := d.base + int64(len(d.heap))
	out := d.heap
	if d.big {
		out = d.word(out, int64(d.count))
	} else {
		out = binary.LittleEndian.AppendUint16(out, d.count)
	}
	out = append(out, d.entries...)
	return at, d.word(out, 0) // no further directory
}
