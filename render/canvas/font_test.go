package canvas

import (
	"math"
	"strings"
	"testing"
)

// Advance widths of Liberation Sans, which has the metrics of the classic
// grotesque: digits are 1139 of 2048 units wide (hmtx table), so ten of them
// at 20 px take 111.2 px. A kerned pair is narrower than its letters.
func TestWidths(t *testing.T) {
	f := Font{Face: Regular, Size: 20}
	if got := f.Width("0123456789"); math.Abs(got-10*20*1139/2048.) > 0.02 {
		t.Errorf("ten digits are %.3f px wide, want %.3f", got, 10*20*1139/2048.)
	}
	if kerned, apart := f.Width("AV"), f.Width("A")+f.Width("V"); kerned >= apart {
		t.Errorf("AV is %.2f px wide, its letters %.2f", kerned, apart)
	}
	if got := f.Width(""); got != 0 {
		t.Errorf("nothing is %g px wide", got)
	}
}

func TestWrap(t *testing.T) {
	f := Font{Face: Regular, Size: 10}
	for name, c := range map[string]struct {
		text  string
		width float64
		want  string
	}{
		"fits":      {"Mar 12–18", 60, "Mar 12–18"},
		"at a dash": {"Mar 26–Apr 1", 45, "Mar 26–|Apr 1"},
		"at spaces": {"one two three", 40, "one two|three"},
		"its break": {"one\ntwo", 100, "one|two"},
		"one word":  {"Llanfairpwll", 30, "Llanfai|rpwll"},
		"nothing":   {"", 30, ""},
	} {
		lines := Wrap(c.text, f, c.width)
		if got := strings.Join(lines, "|"); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
		for _, l := range lines {
			if w := f.Width(l); w > c.width {
				t.Errorf("%s: %q is %.1f px wide", name, l, w)
			}
		}
	}
}
