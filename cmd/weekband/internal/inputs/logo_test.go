package inputs

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A logo with any byte changed, or cut anywhere, is read small or refused.
func TestDamagedLogos(t *testing.T) {
	im := image.NewGray(image.Rect(0, 0, 7, 5))
	var asPNG, asJPEG bytes.Buffer
	if err := png.Encode(&asPNG, im); err != nil {
		t.Fatal(err)
	}
	if err := jpeg.Encode(&asJPEG, im, nil); err != nil {
		t.Fatal(err)
	}
	check := func(data []byte) {
		im, err := decodeLogo(data)
		if (im == nil) == (err == nil) {
			t.Errorf("%v, %v", im, err)
		}
		if err == nil && max(im.Rect.Dx(), im.Rect.Dy()) > logoKept {
			t.Errorf("%v", im.Rect)
		}
	}
	for _, whole := range [][]byte{asPNG.Bytes(), asJPEG.Bytes()} {
		for i := range whole {
			check(whole[:i])
			for _, x := range []byte{0x01, 0x80, 0xff} {
				c := bytes.Clone(whole)
				c[i] ^= x
				check(c)
			}
		}
	}
}

// disc returns a picture of a red disc on nothing, as PNG.
func disc(t *testing.T, width, height int) []byte {
	t.Helper()
	im := image.NewNRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			if math.Hypot(float64(x-width/2), float64(y-height/2)) < 0.45*float64(min(width, height)) {
				im.SetNRGBA(x, y, color.NRGBA{R: 200, G: 20, B: 30, A: 255})
			}
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, im); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// asJPEG returns a PNG picture as JPEG.
func asJPEG(t *testing.T, data []byte) []byte {
	t.Helper()
	im, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, im, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// claiming returns the beginning of a PNG of a size, whose pixels are missing.
func claiming(t *testing.T, width, height uint32) []byte {
	t.Helper()
	data := disc(t, 4, 4)
	binary.BigEndian.PutUint32(data[16:], width) // IHDR: width, height
	binary.BigEndian.PutUint32(data[20:], height)
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

func TestReadLogo(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long")
	}
	good := disc(t, 300, 100)
	for name, c := range map[string]struct {
		file string
		data []byte
		want image.Point
	}{
		"PNG": {"logo.png", good, image.Pt(300, 100)}, "JPEG": {"logo.jpg", asJPEG(t, good), image.Pt(300, 100)},
		"by content, not by name": {"logo.dat", good, image.Pt(300, 100)}, "large": {"l.png", disc(t, 4000, 2000), image.Pt(1000, 500)},
	} {
		in := &Set{dir: t.TempDir()}
		if err := os.WriteFile(filepath.Join(in.dir, c.file), c.data, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := in.readLogo(c.file); err != nil || in.Logo.Rect.Size() != c.want || !slices.Contains(in.Files, File{Role: "logo", Name: c.file}) {
			t.Errorf("%s: %v, %v, files %v", name, in.Logo, err, in.Files)
		}
	}
}

func TestWrongLogos(t *testing.T) {
	good := disc(t, 300, 100)
	for name, c := range map[string]struct {
		file string
		data []byte
		want string
	}{
		"an SVG drawing":      {"logo.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg"/>`), "an SVG drawing, which is not read; save it as PNG"},
		"an SVG by its text":  {"logo.png", []byte("<?xml version=\"1.0\"?>\n<svg/>"), "an SVG drawing"},
		"no picture":          {"logo.png", []byte("title: no picture"), "neither a PNG nor a JPEG picture; want a PNG or JPEG picture of at most 4 MB"},
		"empty":               {"logo.png", nil, "neither a PNG nor a JPEG"},
		"cut short":           {"logo.png", good[:len(good)/2], "a PNG picture that cannot be read to its end"},
		"a JPEG cut short":    {"logo.jpg", asJPEG(t, good)[:900], "a JPEG picture that cannot be read to its end"},
		"too many pixels":     {"logo.png", disc(t, 4001, 400), "a picture of 4001 × 400 pixels; want"},
		"a size only claimed": {"logo.png", claiming(t, 1<<30, 1<<30), "want a PNG or JPEG"},
		"too large a file":    {"logo.png", append(bytes.Clone(good), make([]byte, 4<<20)...), "a file of 4.0 MB; want"},
		"too long":            {"logo.png", disc(t, 2100, 100), "would hardly be seen"},
		"a folder":            {"", nil, "not a file"},
		"a file that is not":  {"other.png", nil, "no such file"},
	} {
		in := &Set{dir: t.TempDir()}
		if c.file != "" && c.file != "other.png" {
			if err := os.WriteFile(filepath.Join(in.dir, c.file), c.data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if err := in.readLogo(c.file); err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), filepath.Join(in.dir, c.file)) {
			t.Errorf("%s: %v, want %q and the file", name, err, c.want)
		}
	}
}
