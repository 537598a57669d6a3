package naming

import (
	"strings"
	"unicode"
)

// Most is how many letters a name or title may have: more do not fit the
// pictures, and are more likely a description.
const Most = 200

// Plain returns a text as one line of valid UTF-8: control characters, line
// and paragraph separators become spaces; marks that turn the direction of all
// text after them (Unicode Standard Annex 9, 2.1, 2.2 and 2.4), byte order
// marks and noncharacters, which XML 1.0 does not allow (2.2), are left out; so
// are blanks at both ends. Everything else stays as it is, also marks of
// direction for a single letter.
func Plain(text string) string {
	text = strings.Map(func(r rune) rune {
		switch {
		case hidden(r):
			return -1
		case breaks(r):
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
	return strings.TrimSpace(text)
}

// Odd returns the first character of a text that Plain takes away, other than
// a tab or a line's end, and 0 when there is none.
func Odd(text string) rune {
	for _, r := range text {
		if r != '\t' && r != '\n' && r != '\r' && (hidden(r) || breaks(r)) {
			return r
		}
	}
	return 0
}

func breaks(r rune) bool { return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' }

func hidden(r rune) bool {
	return r >= '\u202A' && r <= '\u202E' || r >= '\u2066' && r <= '\u2069' || r == '\uFEFF' ||
		r >= '\uFDD0' && r <= '\uFDEF' || r&0xFFFE == 0xFFFE
}
