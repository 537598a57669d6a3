package render

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"weekband/grid"
	"weekband/grid/oracle"
	"weekband/render/canvas"
	"weekband/render/internal/eye"
	"weekband/render/looks"
	"weekband/render/plane"
)

// hills are heights on a lopsided lattice, apart m from each other.
func hills(apart float64) heights {
	h := heights{cols: 23, rows: 17, apart: apart}
	for row := range h.rows {
		for col := range h.cols {
			x, y := float64(col), float64(row)
			h.z = append(h.z, float32(400*math.Sin(x/3+y/7)+250*math.Cos(y/2.5-x/11)+3*x*y))
		}
	}
	return h
}

// Horn's slopes under one lamp against gdaldem hillshade of GDAL, which
// writes 1 + 254 times Lambert's cosine.
func TestLightAgainstGDAL(t *testing.T) {
	const apart, exaggerated = 1000.0, 3.0
	h := hills(apart)
	var text strings.Builder
	fmt.Fprintf(&text, "ncols %d\nnrows %d\nxllcorner 0\nyllcorner 0\ncellsize %g\n", h.cols, h.rows, apart)
	for i, z := range h.z {
		fmt.Fprintf(&text, "%.3f ", z)
		if i%h.cols == h.cols-1 {
			text.WriteByte('\n')
		}
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.asc"), filepath.Join(dir, "out.tif")
	if err := os.WriteFile(in, []byte(text.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, from := range []struct{ azimuth, altitude float64 }{{315, 45}, {20, 28}} {
		lamp := newLight(from.azimuth, from.altitude, 1)
		oracle.Run(t, nil, "gdaldem", "hillshade", "-q", "-z", fmt.Sprint(exaggerated),
			"-az", fmt.Sprint(from.azimuth), "-alt", fmt.Sprint(from.altitude), in, out)
		listed := strings.Fields(string(oracle.Run(t, nil, "gdal_translate", "-q", "-of", "XYZ", out, "/vsistdout/")))
		if len(listed) != 3*len(h.z) {
			t.Fatalf("%d numbers of GDAL", len(listed))
		}
		for row := 1; row < h.rows-1; row++ {
			for col := 1; col < h.cols-1; col++ {
				var want float64
				fmt.Sscan(listed[3*(row*h.cols+col)+2], &want)
				dx, dy := h.slope(col, row)
				got := 1 + 254*lamp.on(dx*exaggerated/apart, dy*exaggerated/apart)
				if math.Abs(got-want) > 1 { // GDAL rounds, and floors at 1
					t.Fatalf("lamp at %.0f°, column %d, row %d: %.2f, GDAL has %g", from.azimuth, col, row, got, want)
				}
			}
		}
	}
}

// Level ground keeps its colour; slopes to the upper left are lit, those away
// from it dark; steeper is stronger.
func TestVeilFollowsTheSlope(t *testing.T) {
	level := lit(0, 0)
	if v := veilOf(lit(0, 0)/level - 1); v.A != 0 {
		t.Errorf("level ground has the veil %v", v)
	}
	before := uint8(0)
	for _, rise := range []float64{0.05, 0.2, 0.6} {
		bright, dark := veilOf(lit(rise, rise)/level-1), veilOf(lit(-rise, -rise)/level-1)
		if bright.R != 255 || dark.R != 0 || dark.A <= before {
			t.Errorf("rise %g: %v toward the light, %v away from it", rise, bright, dark)
		}
		before = dark.A
	}
}

// No veil moves a class, or ground without a week, by more than 0.05 in OKLab
// lightness, nor by more than 0.055 in all.
func TestVeilIsThin(t *testing.T) {
	for n := 1; n <= 18; n++ {
		tones := append(looks.Wheatnight.Palette(n), looks.Millpond.Palette(n)...)
		for _, l := range undatedLooks {
			tones = append(tones, l.Tone)
		}
		for _, tone := range tones {
			for _, share := range []float64{-1, 0.5} {
				veiled := eye.Over(veilOf(share), tone)
				if dl, d := lightnessOf(veiled)-lightnessOf(tone), okDistance(veiled, tone); math.Abs(dl) > 0.0505 || d > 0.055 {
					t.Errorf("%d classes: %v becomes %v, lightness by %.3f, in all by %.3f", n, tone, veiled, dl, d)
				}
			}
		}
	}
}

func lightnessOf(c color.NRGBA) float64 { l, _, _ := canvas.OKLChOf(c); return l }

// okDistance is the distance of two colours in OKLab.
func okDistance(a, b color.NRGBA) float64 {
	v, _ := colorful.MakeColor(a)
	w, _ := colorful.MakeColor(b)
	l1, a1, b1 := v.OkLab()
	l2, a2, b2 := w.OkLab()
	return math.Sqrt((l1-l2)*(l1-l2) + (a1-a2)*(a1-a2) + (b1-b2)*(b1-b2))
}

// realTerrain is the elevation of the contiguous US in cells of 1/24°.
func realTerrain(t testing.TB) *grid.Raster[float32] {
	t.Helper()
	path := oracle.Data(t, "us/elevation-4km.tif")
	raw := filepath.Join(t.TempDir(), "z.bin")
	oracle.Run(t, nil, "gdal_translate", "-q", "-of", "ENVI", "-ot", "Int16", path, raw)
	b, err := os.ReadFile(raw)
	if err != nil {
		t.Fatal(err)
	}
	const rows, cols = 621, 1405
	info := string(oracle.Run(t, nil, "gdalinfo", path))
	at := strings.Index(info, "Origin = (")
	var west, north float64
	if _, err := fmt.Sscanf(info[at:], "Origin = (%g,%g)", &west, &north); err != nil {
		t.Fatal(err)
	}
	g, err := grid.New(grid.Box{West: west, North: north, East: west + cols/24.0, South: north - rows/24.0}, rows, cols)
	if err != nil {
		t.Fatal(err)
	}
	r := grid.NewRaster[float32](g)
	for i := range rows * cols {
		if z := int16(uint16(b[2*i]) | uint16(b[2*i+1])<<8); z != -32768 {
			r.Set(grid.Cell{Row: i / cols, Col: i % cols}, float32(z))
		}
	}
	return r
}

// colorado is ground with plains and high mountains.
var colorado = grid.Box{West: -109, South: 37, East: -102, North: 41}

// veilFor is the veil of a map of a box at a page width.
func veilFor(t testing.TB, r *grid.Raster[float32], box grid.Box, width int) *image.NRGBA {
	t.Helper()
	a, err := NewAtlas(Territory{Extent: box}, width)
	if err != nil {
		t.Fatal(err)
	}
	frame := plane.Rect{Left: 20, Top: 60, Right: float64(width) - 20, Bottom: 60 + math.Round(float64(width)*0.6)}
	return newRelief(a.fit(frame, a.unit*0.9), frame, r)
}

// strength is the root mean square of opacity where there is any.
func strength(im *image.NRGBA) float64 {
	sum, n := 0.0, 0.0
	for i := 3; i < len(im.Pix); i += 4 {
		if a := float64(im.Pix[i]); a > 0 {
			sum, n = sum+a*a, n+1
		}
	}
	return math.Sqrt(sum / n)
}

// Over real ground the mean colour of a class is its legend's to within 0.012
// in OKLab, and neighbours keep four fifths of the least difference in the
// bare palette.
func TestClassesKeepTheirColourOnRealGround(t *testing.T) {
	veil := veilFor(t, realTerrain(t), colorado, 1200)
	for _, season := range looks.Schemes {
		for _, n := range []int{3, 6, 9, 12} {
			checkVeiled(t, veil, season, n)
		}
	}
}

func checkVeiled(t *testing.T, veil *image.NRGBA, season looks.Scheme, n int) {
	t.Helper()
	means := make(looks.Palette, n)
	for k, tone := range season.Palette(n) {
		var sum [3]float64
		for i := 0; i < len(veil.Pix); i += 4 {
			c := eye.Over(color.NRGBA{R: veil.Pix[i], G: veil.Pix[i+1], B: veil.Pix[i+2], A: veil.Pix[i+3]}, tone)
			sum[0] += float64(c.R)
			sum[1] += float64(c.G)
			sum[2] += float64(c.B)
		}
		m := func(k int) uint8 { return uint8(math.Round(4 * sum[k] / float64(len(veil.Pix)))) }
		means[k] = color.NRGBA{R: m(0), G: m(1), B: m(2), A: 255}
		if d := okDistance(means[k], tone); d > 0.012 {
			t.Errorf("%v, class %d of %d: %v has the mean %v on shaded ground, %.4f away", season, k, n, tone, means[k], d)
		}
	}
	flat := season.Palette(n)
	for name, m := range eye.Sights {
		least := math.Inf(1)
		for k := 1; k < n; k++ {
			least = min(least, eye.Difference(eye.Seen(flat[k-1], m), eye.Seen(flat[k], m)))
		}
		for k := 1; k < n; k++ {
			if d := eye.Difference(eye.Seen(means[k-1], m), eye.Seen(means[k], m)); d < 0.8*least {
				t.Errorf("%v, %d classes under %s: %d and %d differ by %.2f on shaded ground", season, n, name, k-1, k, d)
			}
		}
	}
}

// Relief is about as strong on a map of a county as on one of a continent.
func TestReliefAtEveryScale(t *testing.T) {
	terrain := realTerrain(t)
	for name, box := range map[string]grid.Box{
		"county": {West: -106.6, South: 38.8, East: -106, North: 39.2}, "state": colorado,
		"mountain states": {West: -117, South: 35, East: -104, North: 47}, "country": {West: -124.7, South: 24.5, East: -67, North: 49.4},
	} {
		for _, width := range []int{480, 1200} {
			s := strength(veilFor(t, terrain, box, width))
			t.Logf("%s at %d px: %.1f of 255", name, width, s)
			if s < 3 || s > 13 {
				t.Errorf("%s at %d px: the veil has an opacity of %.1f of 255; want 3 to 13", name, width, s)
			}
		}
	}
}

// Heights on the page are those of the terrain: a plane in degrees, read
// through a projection, at cells finer and coarser than the page shows.
func TestHeightsOnThePage(t *testing.T) {
	box := grid.Box{West: -34, South: 43, East: -25, North: 47.6}
	sloped := func(p grid.LonLat) float64 { return 100*(p.Lon+30) + 70*(p.Lat-45) + 900 }
	a, err := NewAtlas(Territory{Extent: box}, 480)
	if err != nil {
		t.Fatal(err)
	}
	frame := plane.Rect{Left: 20, Top: 60, Right: 460, Bottom: 330}
	v := a.fit(frame, a.unit*0.9)
	for _, n := range []int{40, 300, 2100} {
		wide := grid.Box{West: -40, South: 40, East: -19, North: 50}
		g, err := grid.New(wide, n, 2*n+1)
		if err != nil {
			t.Fatal(err)
		}
		r := grid.NewRaster[float32](g)
		for row := range g.Rows() {
			for col := range g.Cols() {
				c := grid.Cell{Row: row, Col: col}
				r.Set(c, float32(sloped(g.Center(c))))
			}
		}
		h := newHeights(v, frame, r)
		for row := 4; row < h.rows-4; row += 7 {
			for col := 4; col < h.cols-4; col += 5 {
				p, _ := v.projection.Inverse(v.screen.Point(at(frame, h, col, row)))
				if got, want := float64(h.z[row*h.cols+col]), sloped(p); math.Abs(got-want) > 2 {
					t.Fatalf("%d rows: column %d, row %d: %.2f m, want %.2f", n, col, row, got, want)
				}
			}
		}
	}
}
