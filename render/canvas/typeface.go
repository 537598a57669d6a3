package canvas

import (
	"image/color"
	"math"
	"sync"

	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansitalic"
	"github.com/go-fonts/liberation/liberationsansregular"
	"github.com/go-fonts/liberation/liberationserifbold"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"weekband/render/plane"
)

// Typeface is one of the fonts on a page: the Liberation family, SIL Open
// Font License.
type Typeface uint8

const (
	Regular Typeface = iota // sans serif
	Bold
	Italic
	Heading // serif, bold
)

// Font is a typeface at a size in layout pixels.
type Font struct {
	Face Typeface
	Size float64
}

// Anchor says which part of a line of text stands at its position.
type Anchor uint8

const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of text. At lies on the baseline.
type Text struct {
	At     plane.Pixel
	Anchor Anchor
	String string
	Font   Font
	Color  color.NRGBA
	Halo   float64 // width of a light rim in pixels, 0 for none
}

// HaloInk is the colour of rims around words.
var HaloInk = color.NRGBA{R: 255, G: 255, B: 255, A: 255}

// files are the fonts as TrueType.
var files = [...][]byte{
	Regular: liberationsansregular.TTF,
	Bold:    liberationsansbold.TTF,
	Italic:  liberationsansitalic.TTF,
	Heading: liberationserifbold.TTF,
}

// TrueType returns the font as TrueType. It must not change.
func (f Typeface) TrueType() []byte { return files[f] }

// typefaces holds the parsed fonts; parsing once takes a few milliseconds.
var typefaces = [len(files)]func() *face{
	Regular: sync.OnceValue(parsed(files[Regular])),
	Bold:    sync.OnceValue(parsed(files[Bold])),
	Italic:  sync.OnceValue(parsed(files[Italic])),
	Heading: sync.OnceValue(parsed(files[Heading])),
}

func parsed(ttf []byte) func() *face {
	return func() *face {
		f, err := opentype.Parse(ttf)
		if err != nil {
			panic("canvas: a font of our own does not parse: " + err.Error())
		}
		return &face{Font: f, letters: map[rune]letter{}, shifts: map[[2]sfnt.GlyphIndex]fixed.Int26_6{}}
	}
}

// unitSize is the size glyphs are measured at; widths scale from it, so they
// do not jump from size to size.
const unitSize = 1024

var fullSize = fixed.I(unitSize)

// run calls glyph for each glyph of s with its place from the start of the
// line in pixels, kerned, and returns the width of the line.
func (f Font) run(s string, glyph func(x float64, index sfnt.GlyphIndex, buf *sfnt.Buffer)) float64 {
	glyphs := typefaces[f.Face]().lookUp(f.drawn(s))
	x, perUnit := 0.0, f.Size/unitSize/64
	var buf sfnt.Buffer
	for _, g := range glyphs {
		x += float64(float64(g.shift) * perUnit)
		if glyph != nil {
			glyph(x, g.index, &buf)
		}
		x += float64(float64(g.advance) * perUnit)
	}
	return x
}

// Width returns the width of a line in pixels.
func (f Font) Width(s string) float64 { return f.run(s, nil) }

// Line returns the usual distance of two baselines in whole pixels.
func (f Font) Line() float64 { return math.Round(f.Size * 1.28) }

// Ascent returns the height in pixels of the tallest letters above the
// baseline, accents on capitals included.
func (f Font) Ascent() float64 { return float64(f.Size * 0.93) }

// Descent returns the depth in pixels of the lowest letters below the baseline.
func (f Font) Descent() float64 { return float64(f.Size * 0.22) }

// Middle is how far under the middle of the digits of a line its baseline is,
// in pixels.
func (f Font) Middle() float64 { return float64(f.Size * 0.36) }

// Bounds returns the rectangle the line takes up, without its halo.
func (t Text) Bounds() plane.Rect {
	w := t.Font.Width(t.String)
	left := t.At.X
	switch t.Anchor {
	case Middle:
		left -= w / 2
	case End:
		left -= w
	}
	return plane.Rect{Left: left, Right: left + w, Top: t.At.Y - t.Font.Ascent(), Bottom: t.At.Y + t.Font.Descent()}
}
