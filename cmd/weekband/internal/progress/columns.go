package progress

import (
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

// cut shortens a text to so many columns, an ellipsis in place of its end.
func cut(text string, columns int) string {
	if columnsOf(text) <= columns {
		return text
	}
	var b strings.Builder
	left := columns - 1
	for _, r := range text {
		if left -= columnsOfRune(r); left < 0 {
			break
		}
		b.WriteRune(r)
	}
	if columns < 1 {
		return ""
	}
	return b.String() + "…"
}

func columnsOf(text string) (n int) {
	for _, r := range text {
		n += columnsOfRune(r)
	}
	return n
}

// columnsOfRune is how wide terminals draw a character: two columns for what
// Unicode's annex 11 calls wide, none for marks on the one before.
func columnsOfRune(r rune) int {
	switch {
	case unicode.In(r, unicode.Mn, unicode.Me):
		return 0
	case width.LookupRune(r).Kind() == width.EastAsianWide, width.LookupRune(r).Kind() == width.EastAsianFullwidth:
		return 2
	}
	return 1
}

// visible writes out characters that would steer a terminal or turn around
// the order of what follows; names of files and regions may hold any. New
// lines and tabs stay.
func visible(text string) string {
	steers := func(r rune) bool {
		return unicode.IsControl(r) && r != '\n' && r != '\t' || unicode.Is(unicode.Bidi_Control, r) || r == unicode.ReplacementChar
	}
	if strings.IndexFunc(text, steers) < 0 {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if steers(r) {
			quoted := strconv.QuoteToASCII(string(r))
			b.WriteString(quoted[1 : len(quoted)-1])
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}
