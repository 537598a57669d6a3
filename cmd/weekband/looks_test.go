package main

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
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

	"weekband/render"
)

// crest returns a picture of a red disc on nothing, as PNG.
func crest(t *testing.T, width, height int) []byte {
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
	data := crest(t, 4, 4)
	binary.BigEndian.PutUint32(data[16:], width) // IHDR: width, height
	binary.BigEndian.PutUint32(data[20:], height)
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

func TestReadLogo(t *testing.T) {
	unraced(t)
	good := crest(t, 300, 100)
	for name, c := range map[string]struct {
		file string
		data []byte
		want image.Point
	}{
		"PNG": {"logo.png", good, image.Pt(300, 100)}, "JPEG": {"logo.jpg", asJPEG(t, good), image.Pt(300, 100)},
		"by content, not by name": {"logo.dat", good, image.Pt(300, 100)}, "large": {"l.png", crest(t, 4000, 2000), image.Pt(1000, 500)},
	} {
		in := &inputs{dir: t.TempDir()}
		if err := os.WriteFile(filepath.Join(in.dir, c.file), c.data, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := in.readLogo(c.file); err != nil || in.logo.Rect.Size() != c.want || !slices.Contains(in.files, inputFile{Role: "logo", Name: c.file}) {
			t.Errorf("%s: %v, %v, files %v", name, in.logo, err, in.files)
		}
	}
}

func TestWrongLogos(t *testing.T) {
	good := crest(t, 300, 100)
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
		"too many pixels":     {"logo.png", crest(t, 4001, 400), "a picture of 4001 × 400 pixels; want"},
		"a size only claimed": {"logo.png", claiming(t, 1<<30, 1<<30), "want a PNG or JPEG"},
		"too large a file":    {"logo.png", append(bytes.Clone(good), make([]byte, 4<<20)...), "a file of 4.0 MB; want"},
		"too long":            {"logo.png", crest(t, 2100, 100), "would hardly be seen"},
		"a folder":            {"", nil, "not a file"},
		"a file that is not":  {"other.png", nil, "no such file"},
	} {
		in := &inputs{dir: t.TempDir()}
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

// inches returns the pixels of a PNG file across, and how many inches they
// are by its pHYs chunk (PNG, third edition, section 11.3.4.3), 0 without one.
func inches(t *testing.T, path string) (pixels int, wide float64) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	config, err := png.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if at := bytes.Index(data[:200], []byte("pHYs")); at > 0 {
		perMetre := binary.BigEndian.Uint32(data[at+4:])
		wide = float64(config.Width) / float64(perMetre) / 0.0254
	}
	return config.Width, wide
}

// A recipe sets the size and the colours of the maps and a logo; narrow maps
// and frames keep their size; the manifest names the logo.
func TestLooksOfARecipe(t *testing.T) {
	unraced(t)
	dir, text := unpacked(t)
	path, out := filepath.Join(dir, "recipe.yaml"), filepath.Join(t.TempDir(), "out")
	for name, data := range map[string][]byte{"crest.png": crest(t, 600, 200), "recipe.yaml": []byte(text + "size: 900\npalette: millpond\nlogo: crest.png\n")} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if code, _, log := weekband(t, "build", path, "--out", out); code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	for name, want := range map[string]struct {
		pixels int
		inches float64
	}{
		"": {1800, 6}, "-grey": {1800, 6}, "-narrow": {640, 0}, "-early": {1800, 0}, "-sheet": {1800, 0},
	} {
		pixels, wide := inches(t, filepath.Join(out, "maps", windowIDs[0]+name+".png"))
		if pixels != want.pixels || math.Abs(wide-want.inches) > 0.001 {
			t.Errorf("%s%s: %d pixels, %.3f in, want %d, %g in", windowIDs[0], name, pixels, wide, want.pixels, want.inches)
		}
	}
	frames, err := filepath.Glob(filepath.Join(out, "weeks", windowIDs[0], "*.png"))
	if err != nil || len(frames) == 0 {
		t.Fatalf("%d frames, %v", len(frames), err)
	}
	if pixels, _ := inches(t, frames[0]); pixels != frameWidth {
		t.Errorf("a frame is %d pixels wide", pixels)
	}
	checkLooksOfMap(t, filepath.Join(out, "maps", windowIDs[0]+".png"))
	var m manifest
	if err := json.Unmarshal(files(t, out)["manifest.json"], &m); err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(m.Inputs, func(f inputFile) bool { return f.Role == "logo" && f.Name == "crest.png" && f.Bytes > 0 }) {
		t.Errorf("the manifest names %v", m.Inputs)
	}
	if svg := string(files(t, out)["maps/"+windowIDs[0]+".svg"]); !strings.Contains(svg, "<image ") {
		t.Error("the SVG has no logo")
	}
}

// checkLooksOfMap looks for the red of the logo at the top right and for the
// colours of Millpond, and none of Wheatnight's, on the map.
func checkLooksOfMap(t *testing.T, path string) {
	t.Helper()
	im := pictureIn(t, path)
	size, red, found := im.Bounds().Size(), 0, map[color.NRGBA]int{}
	for y := range size.Y {
		for x := range size.X {
			c := color.NRGBAModel.Convert(im.At(x, y)).(color.NRGBA)
			found[c]++
			if x > size.X*3/4 && y < size.X/8 && near(c, color.NRGBA{R: 200, G: 20, B: 30, A: 255}) {
				red++
			}
		}
	}
	if red < 500 {
		t.Errorf("%d red pixels of a logo", red)
	}
	most := func(s render.Season) (best int) {
		for n := 3; n <= 18; n++ {
			shown := 0
			for _, tone := range s.Palette(n) {
				if found[tone] > 500 {
					shown++
				}
			}
			best = max(best, shown)
		}
		return best
	}
	if mill, wheat := most(render.Millpond), most(render.Wheatnight); mill < 4 || wheat > 2 {
		t.Errorf("%d colours of millpond and %d of wheatnight on the map", mill, wheat)
	}
}
