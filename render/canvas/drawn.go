package canvas

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/bidi"
	"golang.org/x/text/unicode/norm"
)

// lacking stands for letters that a font does not have: a white square.
const lacking = '□'

// drawn returns a line as its glyphs stand from left to right: composed
// (Unicode Normalization Form C), in visual order where it runs from right to
// left (Unicode Standard Annex 9), without marks that have no width of their
// own and no place in the font, and with squares for letters the font lacks.
func (f Font) drawn(s string) string {
	if !strings.ContainsFunc(s, unusual) {
		return s
	}
	face := typefaces[f.Face]().Font
	var buf sfnt.Buffer
	return strings.Map(func(r rune) rune {
		switch {
		case has(face, &buf, r) && !unicode.Is(unicode.Cf, r):
			return r
		case unseen(r):
			return -1
		}
		return lacking
	}, visual(norm.NFC.String(s)))
}

// unusual reports whether a letter is not of those that every font of ours has
// and that stand as they are written.
func unusual(r rune) bool { return r >= 0x300 || r == 0xad || unicode.IsControl(r) }

// unseen reports whether a character shows nothing by itself.
func unseen(r rune) bool {
	return unicode.In(r, unicode.Cf, unicode.Cc, unicode.Mn, unicode.Me, unicode.Variation_Selector)
}

func has(face *sfnt.Font, buf *sfnt.Buffer, r rune) bool {
	if r > 0xffff { // which text of a PDF cannot hold
		return false
	}
	index, err := face.GlyphIndex(buf, r)
	if err != nil {
		panic("canvas: reading a font of our own: " + err.Error())
	}
	return index != 0
}

// visual returns a line in the order in which it is drawn.
func visual(s string) string {
	if !strings.ContainsFunc(s, rightToLeft) {
		return s
	}
	var p bidi.Paragraph
	if _, err := p.SetString(s); err != nil {
		return s
	}
	order, err := p.Order()
	if err != nil {
		return s
	}
	runs := make([]string, order.NumRuns()) // as they are read
	for i := range runs {
		run := order.Run(i)
		runs[i] = run.String()
		if run.Direction() == bidi.RightToLeft {
			runs[i] = bidi.ReverseString(runs[i])
		}
	}
	if first := strings.IndexFunc(s, strong); rightToLeft([]rune(s[first:])[0]) {
		slices.Reverse(runs)
	}
	return strings.Join(runs, "")
}

// strong reports whether a letter has a direction of its own. The first such
// letter of a line gives the line its direction.
func strong(r rune) bool {
	p, _ := bidi.LookupRune(r)
	return p.Class() == bidi.L || rightToLeft(r)
}

func rightToLeft(r rune) bool {
	p, _ := bidi.LookupRune(r)
	return p.Class() == bidi.R || p.Class() == bidi.AL
}

// Lacking returns the letters of a text that pictures show as squares, for
// want of a font, each once and in order.
func Lacking(text string) []rune {
	var out []rune
	var buf sfnt.Buffer
	for _, r := range norm.NFC.String(text) {
		if unusual(r) && !unseen(r) && !slices.Contains(out, r) && !has(typefaces[Regular]().Font, &buf, r) {
			out = append(out, r)
		}
	}
	slices.Sort(out)
	return out
}
