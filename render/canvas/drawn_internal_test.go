package canvas

import (
	"slices"
	"testing"
)

// The Hebrew example is worked by hand with the rules of Unicode Standard
// Annex 9: letters from the right, digits and Latin words from the left,
// brackets mirrored.
func TestDrawn(t *testing.T) {
	for text, want := range map[string]string{
		"Sôlenne, 55 °F":           "Sôlenne, 55 °F",
		"Vennaforde\u0301":         "Vennafordé",
		"Ash 🌾 Holt":               "Ash □ Holt",
		"村 Ashholt":                "□ Ashholt",
		"\U0001F469\u200d🌾\ufe0f!": "□□!",
		"Ash\u00adholt\u200b":      "Ashholt",
		"אבג":                      "גבא",
		"Ash אבג Holt":             "Ash גבא Holt",
		"אב (12) ג":                "ג (12) בא",
		"a\u0000b\u001bc":          "abc",
		"\u202eabc":                "abc",
		"":                         "",
	} {
		for face := range typefaces {
			f := Font{Face: Typeface(face), Size: 12}
			got := f.drawn(text)
			if got != want && face == int(Regular) {
				t.Errorf("%q: drawn as %q, want %q", text, got, want)
			}
			if w := f.Width(text); w < 0 || w > 400 {
				t.Errorf("%q: %v wide", text, w)
			}
		}
	}
}

func TestLacking(t *testing.T) {
	for text, want := range map[string][]rune{
		"Sôlenne אבג Ёж": nil, "村🌾村": {'村', '🌾'}, "e\u0301\u200d\ufe0f": nil, "مرو": []rune("رمو"),
	} {
		if got := Lacking(text); !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
