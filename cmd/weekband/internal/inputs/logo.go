package inputs

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	_ "image/jpeg" // a format of logos
	_ "image/png"  // the other
	"io"
	"os"
	"path/filepath"
	"strings"

	xdraw "golang.org/x/image/draw"
)

// Limits of the picture of a logo.
const (
	logoBytes  = 4 << 20
	logoPixels = 4000 // a side
	logoRatio  = 20   // the longer side over the shorter
	logoKept   = 1000 // pixels of the longer side that are kept: more than any page shows
)

const logoWanted = "want a PNG or JPEG picture of at most 4 MB and 4000 pixels a side"

// readLogo reads the picture that stands beside titles.
func (in *Set) readLogo(name string) error {
	path := in.path(name)
	in.used("logo", path)
	data, err := logoFile(path)
	if err != nil {
		return err
	}
	if in.Logo, err = decodeLogo(data); err != nil {
		return fmt.Errorf("%s: %w; %s", path, err, logoWanted)
	}
	return nil
}

// logoFile returns what a file holds, unless it is too much.
func logoFile(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s: not a file; %s", path, logoWanted)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, logoBytes+1))
	if err != nil {
		return nil, err
	}
	if len(data) > logoBytes {
		return nil, fmt.Errorf("%s: a file of %.1f MB; %s", path, float64(info.Size())/(1<<20), logoWanted)
	}
	if isSVG(path, data) {
		return nil, fmt.Errorf("%s: an SVG drawing, which is not read; save it as PNG, some 300 pixels high, and name that", path)
	}
	return data, nil
}

// isSVG reports whether a file is an SVG drawing, by its name or its text.
func isSVG(path string, data []byte) bool {
	switch strings.ToLower(filepath.Ext(path)) {
	case ".svg", ".svgz":
		return true
	}
	head := data[:min(len(data), 1<<12)]
	return bytes.Contains(head, []byte("<svg"))
}

// decodeLogo returns the picture of a logo, small enough to keep. It looks at
// the size in the header before it takes memory for pixels.
func decodeLogo(data []byte) (*image.NRGBA, error) {
	config, format, err := image.DecodeConfig(bytes.NewReader(data))
	if errors.Is(err, image.ErrFormat) {
		return nil, errors.New("neither a PNG nor a JPEG picture")
	}
	if err != nil {
		return nil, err
	}
	w, h := config.Width, config.Height
	if w < 1 || h < 1 || w > logoPixels || h > logoPixels {
		return nil, fmt.Errorf("a picture of %d × %d pixels", w, h)
	}
	if max(w, h) > logoRatio*min(w, h) {
		return nil, fmt.Errorf("a picture of %d × %d pixels, more than %d times as long as across, would hardly be seen", w, h, logoRatio)
	}
	im, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("a %s picture that cannot be read to its end: %w", strings.ToUpper(format), err)
	}
	return kept(im), nil
}

// kept returns a picture with at most logoKept pixels on its longer side.
func kept(im image.Image) *image.NRGBA {
	size := im.Bounds().Size()
	if long := max(size.X, size.Y); long > logoKept {
		size = image.Pt(max(1, size.X*logoKept/long), max(1, size.Y*logoKept/long))
	}
	out := image.NewNRGBA(image.Rectangle{Max: size})
	if size == im.Bounds().Size() {
		xdraw.Draw(out, out.Rect, im, im.Bounds().Min, xdraw.Src)
	} else {
		xdraw.BiLinear.Scale(out, out.Rect, im, im.Bounds(), xdraw.Src, nil)
	}
	return out
}
