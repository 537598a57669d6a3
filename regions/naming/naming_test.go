package naming_test

import (
	"encoding/xml"
	"fmt"
	"strings"
	"testing"

	"weekband/regions/naming"
)

func ExamplePlain() {
	fmt.Println(naming.Plain("High\tVennet\u202e \r\n"))
	// Output: High Vennet
}

func TestPlain(t *testing.T) {
	for text, want := range map[string]string{
		"Sôlenne":                              "Sôlenne",
		" <b>Ash</b> & 'co' ":                  "<b>Ash</b> & 'co'",
		"a\x00b\x07c\x7fd\u0085e":              "a b c d e",
		"a\u2028b\u2029c":                      "a b c",
		"a\u202eb\u2066c\u2069d\ufeffe":        "abcde",
		"שלום\u200f, \u200eAsh":                "שלום\u200f, \u200eAsh",
		"\ufdd0\ufffe\uffff\U0001fffex":        "x",
		"broken \xff here":                     "broken \ufffd here",
		"🌾 e\u0301 \U0001F469\u200d\U0001F33E": "🌾 e\u0301 \U0001F469\u200d\U0001F33E",
		"\u202e\n":                             "",
	} {
		if got := naming.Plain(text); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

// What Plain leaves comes through XML unchanged, whatever the character.
func TestPlainSurvivesXML(t *testing.T) {
	for r := rune(0); r < 0x20100; r++ {
		if r == 0x3000 { // past most of what are letters only
			r = 0xd700
		}
		if r == 0x10100 {
			r = 0x1ff00
		}
		text := "a" + naming.Plain("x"+string(r)+"y") + "b"
		var out strings.Builder
		if err := xml.EscapeText(&out, []byte(text)); err != nil {
			t.Fatal(err)
		}
		var back string
		if err := xml.Unmarshal([]byte("<t>"+out.String()+"</t>"), &back); err != nil || back != text {
			t.Fatalf("U+%04X: %q (%v), want %q", r, back, err, text)
		}
	}
}

func TestOdd(t *testing.T) {
	for text, want := range map[string]rune{"Ash, 55 °F": 0, "two\nlines\t": 0, "a\x1bb": 0x1b, "a\u202eb": 0x202e, "\u2028": 0x2028} {
		if got := naming.Odd(text); got != want {
			t.Errorf("%q: got U+%04X, want U+%04X", text, got, want)
		}
	}
}

func TestDevice(t *testing.T) {
	for name, want := range map[string]bool{"con": true, "CON.html": true, "nul.a.b": true, "Com1": true, "lpt0": true, "com": false, "com10": false, "conrad": false, "icon": false, "": false} {
		if got := naming.Device(name); got != want {
			t.Errorf("%q: got %v", name, got)
		}
	}
}
