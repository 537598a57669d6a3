package render_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/grid/oracle"
	"weekband/render/press"
)

// grain is how many pixels a drawing of another program is made larger each
// way, to be averaged down: programs smooth edges differently.
const grain = 2

// averaged returns an image with each pixel the mean of n × n of another,
// from a corner on.
func averaged(im image.Image, corner image.Point, size image.Point, n int) *image.NRGBA {
	out := image.NewNRGBA(image.Rectangle{Max: size})
	large := image.NewNRGBA(image.Rectangle{Max: size.Mul(n)})
	draw.Draw(large, large.Rect, im, corner, draw.Src)
	for y := range size.Y {
		for x := range size.X {
			var sum [3]uint32
			for k := range n * n {
				pix := large.Pix[large.PixOffset(n*x+k%n, n*y+k/n):]
				for i := range sum {
					sum[i] += uint32(pix[i])
				}
			}
			m := uint32(n * n)
			out.SetNRGBA(x, y, color.NRGBA{R: uint8(sum[0] / m), G: uint8(sum[1] / m), B: uint8(sum[2] / m), A: 255})
		}
	}
	return out
}

// compare returns the share of places where two images, averaged over 3 × 3
// pixels, differ by more than 40 of 255 in a channel, and a picture of them.
func compare(a, b *image.NRGBA) (share float64, diff *image.NRGBA) {
	const block, most = 3, 40
	size := a.Rect.Size().Div(block)
	a, b = averaged(a, image.Point{}, size, block), averaged(b, image.Point{}, size, block)
	diff = image.NewNRGBA(image.Rectangle{Max: size})
	count := 0
	for i := 0; i < len(a.Pix); i += 4 {
		worst := 0
		for k := range 3 {
			d := int(a.Pix[i+k]) - int(b.Pix[i+k])
			worst = max(worst, d, -d)
		}
		if worst > most {
			count++
		}
		copy(diff.Pix[i:], []uint8{uint8(255 - worst), uint8(255 - worst), uint8(255 - worst), 255})
	}
	return float64(count) / float64(len(a.Pix)/4), diff
}

func decoded(t *testing.T, path string) image.Image {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return must(png.Decode(bytes.NewReader(data)))
}

// bySVG returns the page as Chromium shows its SVG.
func bySVG(t *testing.T, p *press.Page, size image.Point) *image.NRGBA {
	t.Helper()
	dir := t.TempDir()
	shot := filepath.Join(dir, "shot.png")
	oracle.Run(t, nil, "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", fmt.Sprint("--force-device-scale-factor=", grain),
		fmt.Sprintf("--window-size=%d,%d", size.X, size.Y), "--screenshot="+shot, written(t, "page.svg", svgOf(t, p)))
	return averaged(decoded(t, shot), image.Point{}, size, grain)
}

// byPDF returns the page as Poppler shows its PDF.
func byPDF(t *testing.T, p *press.Page, paper press.PaperSize, size image.Point) *image.NRGBA {
	t.Helper()
	scale, left, top := paper.Laid(p.Layout)
	out := filepath.Join(t.TempDir(), "sheet")
	oracle.Run(t, nil, "pdftoppm", "-png", "-singlefile", "-r", fmt.Sprint(72*grain/scale), written(t, "page.pdf", pdfOf(t, p, paper)), out)
	corner := image.Pt(int(left/scale*grain+0.5), int(top/scale*grain+0.5))
	return averaged(decoded(t, out+".png"), corner, size, grain)
}

// save keeps pictures of a failure.
func save(t *testing.T, pictures map[string]image.Image) {
	t.Helper()
	for name, im := range pictures {
		var b bytes.Buffer
		if err := png.Encode(&b, im); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.ArtifactDir(), strings.ReplaceAll(name, " ", "-")+".png")
		if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		t.Log("see", path)
	}
}

// mostOff is the share of places that may differ between outputs; measured
// are 0 to 0.5 %, most where Poppler widens hair lines of small maps.
const mostOff = 0.006

// One page looks the same as PNG, as SVG in Chromium and as PDF in Poppler.
func TestOutputsAreAlike(t *testing.T) {
	unraced(t)
	oracle.Need(t, "chromium", "pdftoppm")
	pages := vectorPages(t)
	for _, name := range []string{"bands", "grey", "chart", "sheet"} {
		p := pages[name]
		size := image.Pt(int(p.Layout.Width), int(p.Layout.Height))
		want := averaged(picture(t, p, grain), image.Point{}, size, grain)
		for kind, got := range map[string]*image.NRGBA{
			"SVG": bySVG(t, p, size), "PDF": byPDF(t, p, press.Letter, size),
		} {
			share, diff := compare(want, got)
			t.Logf("%s as %s: %.2f %% differ", name, kind, 100*share)
			if share > mostOff {
				t.Errorf("%s: %.2f %% of the %s differs from the PNG, want at most %.2f %%", name, 100*share, kind, 100*mostOff)
				save(t, map[string]image.Image{name + " want": want, name + " got " + kind: got, name + " diff " + kind: diff})
			}
		}
	}
}

// A page two pixels off, and one in other colours, are not alike, so the comparison can fail.
func TestComparisonCanFail(t *testing.T) {
	pages := vectorPages(t)
	size := image.Pt(int(pages["bands"].Layout.Width), int(pages["bands"].Layout.Height))
	right := averaged(picture(t, pages["bands"], 1), image.Point{}, size, 1)
	for name, wrong := range map[string]*image.NRGBA{
		"moved": averaged(right, image.Pt(2, 0), size, 1), "grey": averaged(picture(t, pages["grey"], 1), image.Point{}, size, 1),
	} {
		if share, _ := compare(right, wrong); share <= mostOff {
			t.Errorf("%s: only %.2f %% differ", name, 100*share)
		}
	}
}
