package netcdf

import (
	"bytes"
	"encoding/binary"
	"errors"
	"strings"
	"testing"
)

// readSome opens bytes and reads the outermost rows. Whatever the bytes, it
// must return.
func readSome(b []byte) error {
	f, err := open(b, "")
	if err != nil {
		return err
	}
	if _, err = f.Frame(); err != nil {
		return err
	}
	f.Info()
	rows, cols := len(f.lat.values), len(f.lon.values)
	vals, has := make([]float32, cols), make([]bool, cols)
	for _, layer := range []int{0, f.Count() - 1} {
		for _, row := range []int{0, rows - 1} {
			if e := f.Read(layer, row, 1, vals, has); e != nil {
				err = e
			}
		}
	}
	return err
}

func TestReadCutShort(t *testing.T) {
	for _, version := range []byte{1, 2, 5} {
		for _, record := range []bool{false, true} {
			m := small(version, typFloat)
			if record {
				m.dims[0].length, m.records = 0, 12
			}
			b := m.build()
			if err := readSome(b); err != nil {
				t.Fatal(err)
			}
			for n := range b {
				if err := readSome(b[:n]); err == nil || !strings.HasPrefix(err.Error(), "t.nc: ") {
					t.Fatalf("CDF-%d cut to %d of %d bytes: error %v", version, n, len(b), err)
				}
			}
		}
	}
}

func TestReadDamaged(t *testing.T) {
	for _, version := range []byte{1, 2, 5} {
		m := small(version, typShort)
		m.dims[0].length, m.records = 0, 12
		b := m.build()
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
	huge := small(1, typFloat)
	huge.dims[1].length = 1 << 30
	none := small(1, typFloat)
	none.dims[0].length, none.records = 0, 0
	none.vars[2].data, none.vars[3].data = nil, nil
	one := small(1, typFloat)
	one.dims[2].length, one.vars[1].data = 1, one.vars[1].data[:1]
	records := small(1, typFloat)
	records.dims[0].length, records.records = 0, 1<<30
	little := small(1, typFloat).build()
	binary.LittleEndian.PutUint32(little[8:], 10)
	binary.LittleEndian.PutUint32(little[12:], 3)
	for _, c := range []struct {
		name string
		b    []byte
		err  string
	}{
		{"empty", nil, "not a NetCDF classic file"},
		{"something else", []byte("ncols 12\nnrows 3"), "begins with 6e 63 6f 6c"},
		{"version 3", []byte("CDF\x03aaaaaaaaaaaa"), "want CDF and 1, 2 or 5"},
		{"wrong byte order", little, "begin with tag"},
		{"huge", huge.build(), "the file has only"},
		{"no records", none.build(), "no layers"},
		{"one column", one.build(), "at least 2"},
		{"more records than there are", records.build(), "cut short"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if err := readSome(c.b); err == nil || !strings.Contains(err.Error(), c.err) {
				t.Errorf("error %v, want one with %q", err, c.err)
			}
		})
	}
	_, err := open([]byte("\x89HDF\r\n\x1a\n"), "")
	if e, ok := errors.AsType[*HDF5Error](err); !ok || !strings.Contains(e.Error(), "HDF5") {
		t.Errorf("%T %v", err, err)
	}
}

func FuzzDecode(f *testing.F) {
	for _, version := range []byte{1, 2, 5} {
		m := small(version, typShort)
		m.vars[3].attrs = append(m.vars[3].attrs, numAttr("scale_factor", typDouble, 0.5), numAttr("missing_value", typShort, 7))
		f.Add(m.build())
		m.dims[0].length, m.records = 0, 12
		f.Add(m.build())
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		if err := readSome(b); err != nil && !strings.HasPrefix(err.Error(), "t.nc: ") {
			t.Errorf("no name in %q", err)
		}
	})
}
