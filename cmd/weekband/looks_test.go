package main

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/render/looks"
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
	if pixels, _ := inches(t, frames[0]); pixels != tracing.FrameWidth {
		t.Errorf("a frame is %d pixels wide", pixels)
	}
	checkLooksOfMap(t, filepath.Join(out, "maps", windowIDs[0]+".png"))
	var m output.Manifest
	if err := json.Unmarshal(files(t, out)["manifest.json"], &m); err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(m.Inputs, func(f inputs.File) bool { return f.Role == "logo" && f.Name == "crest.png" && f.Bytes > 0 }) {
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
	most := func(s looks.Scheme) (best int) {
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
	if mill, wheat := most(looks.Millpond), most(looks.Wheatnight); mill < 4 || wheat > 2 {
		t.Errorf("%d colours of millpond and %d of wheatnight on the map", mill, wheat)
	}
}
