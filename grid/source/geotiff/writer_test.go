package geotiff

import (
	"bytes"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"weekband/grid"
)

func encode(t *testing.T, p plan, opts WriteOptions) []byte {
	t.Helper()
	var buf bytes.Buffer
	if err := Encode(&buf, testGrid(t, p.rows, p.cols), p.bands, p.from, opts); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

func TestWriteAndRead(t *testing.T) {
	for _, opts := range []WriteOptions{
		{},
		{Names: []string{"a", "b & c", "<d>"}, Unit: "day"},
		{Store: Int16, Scale: 0.125, Offset: 10},
		{Unit: "day", Big: true},
	} {
		p := small(float32s)
		p.rows, p.cols = 300, 500
		f := open(t, encode(t, p, opts), Options{})
		check(t, f, p.rows, p.cols, 100, p.want)
		if len(f.bands[0].page.offsets) < 2*p.bands {
			t.Error("only one strip")
		}
		if info := f.Info(); info.Unit != opts.Unit || info.NoData != "-9999" || info.Big != opts.Big {
			t.Errorf("%+v", info)
		} else if opts.Names != nil && !slices.Equal(info.Names, opts.Names) {
			t.Errorf("names %q", info.Names)
		}
	}
}

// A file whose numbers may take more than 32 bits of bytes is a BigTIFF from
// its first byte on, whatever they compress to, and reads back from one strip
// too, whose place and length stand in the directory itself.
func TestWriteBig(t *testing.T) {
	for _, c := range []struct {
		rows, cols int
		store      Storage
		big        bool
	}{{21600, 43200, Float32, false}, {30000, 43200, Float32, true}, {43200, 43200, Int16, false}, {43200, 86400, Int16, true}} {
		g, err := grid.New(grid.Box{West: -180, South: -90, East: 180, North: 90}, c.rows, c.cols)
		if err != nil {
			t.Fatal(err)
		}
		w, err := NewWriter(io.Discard, g, 1, WriteOptions{Store: c.store})
		if err != nil {
			t.Fatal(err)
		}
		if w.big != c.big {
			t.Errorf("%d × %d cells of %v: big %t, want %t", c.rows, c.cols, c.store, w.big, c.big)
		}
	}
	p := small(float32s)
	p.bands = 1
	f := open(t, encode(t, p, WriteOptions{Big: true}), Options{})
	check(t, f, p.rows, p.cols, 100, p.want)
	if n := len(f.bands[0].page.offsets); n != 1 || !f.Info().Big {
		t.Errorf("%d strips, %+v", n, f.Info())
	}
}

// TestWriteSameBytes checks that a file and a pipe get the same bytes, and
// that rows may come in pieces.
func TestWriteSameBytes(t *testing.T) {
	p := small(float32s)
	want := encode(t, p, WriteOptions{})
	path := filepath.Join(t.TempDir(), "x.tif")
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	w, err := NewWriter(file, testGrid(t, p.rows, p.cols), p.bands, WriteOptions{})
	if err != nil {
		t.Fatal(err)
	}
	vals, has := make([]float32, p.cols), make([]bool, p.cols)
	for layer := range p.bands {
		for row := range p.rows {
			p.from(layer, row, 1, vals, has)
			if err := w.WriteRows(layer, vals, has); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if at, _ := file.Seek(0, io.SeekCurrent); at != int64(len(want)) {
		t.Errorf("left at byte %d of %d", at, len(want))
	}
	got, err := os.ReadFile(path)
	if err != nil || !bytes.Equal(got, want) {
		t.Errorf("%d bytes in the file, %d in the pipe, %v", len(got), len(want), err)
	}
	if err := w.Close(); err == nil {
		t.Error("closed twice")
	}
}

func TestWriteErrors(t *testing.T) {
	one := func(v float32) func(w *Writer) error {
		return func(w *Writer) error {
			return w.WriteRows(0, []float32{1, v, 3}, []bool{true, true, true})
		}
	}
	for _, c := range []struct {
		name string
		opts WriteOptions
		do   func(w *Writer) error
		err  string
	}{
		{"NaN", WriteOptions{}, one(float32(math.NaN())), "row 0, column 1: NaN"},
		{"infinity", WriteOptions{}, one(float32(math.Inf(1))), "column 1"},
		{"nodata as value", WriteOptions{}, one(-9999), "nodata"},
		{"too large", WriteOptions{Store: Int16}, one(40000), "column 1: 40000 cannot"},
		{"nodata as scaled value", WriteOptions{Store: Int16, Scale: 0.1}, one(-999.9), "cannot"},
		{"half a row", WriteOptions{}, func(w *Writer) error { return w.WriteRows(0, []float32{1}, []bool{true}) }, "whole rows of 3"},
		{"no such layer", WriteOptions{}, func(w *Writer) error { return w.WriteRows(1, nil, nil) }, "layer 1"},
		{"too many rows", WriteOptions{}, func(w *Writer) error { return w.WriteRows(0, make([]float32, 9), make([]bool, 9)) }, "the grid has 2"},
		{"too few rows", WriteOptions{}, (*Writer).Close, "0 rows of 2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, err := NewWriter(io.Discard, testGrid(t, 2, 3), 1, c.opts)
			if err != nil {
				t.Fatal(err)
			}
			if err := c.do(w); err == nil || !strings.Contains(err.Error(), c.err) {
				t.Errorf("error %v, want one with %q", err, c.err)
			}
		})
	}
	if _, err := NewWriter(io.Discard, testGrid(t, 2, 3), 1, WriteOptions{Scale: 2}); err == nil {
		t.Error("float32 with a scale was accepted")
	}
}
