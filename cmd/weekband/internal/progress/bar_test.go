package progress

import (
	"math"
	"strings"
	"testing"
	"time"
)

func TestBarLine(t *testing.T) {
	drawing := extent{text: "drawing", did: 57, total: 139, unit: "pictures", rate: 12.3, elapsed: 5 * time.Second, left: 6700 * time.Millisecond}
	unknown := extent{text: "summing up 3,142 regions", elapsed: 4200 * time.Millisecond, left: -1}
	early := drawing
	early.did, early.rate, early.elapsed, early.left = 0, 0, 0, -1
	long := drawing
	long.text = "working out 120 rows × 160 columns, west -54.4, south 31.2, east -41.6, north 40.8"
	wide := drawing
	wide.text = "読み込み" + strings.Repeat("é", 3)
	for _, c := range []struct {
		columns int
		what    extent
		want    string
	}{
		{79, drawing, "drawing  [##########................]  41 %  57 of 139 pictures  12/s  7 s left"},
		{39, drawing, "drawing  41 %  12/s  7 s left"},
		{19, drawing, "drawing  41 %  12/s"},
		{5, drawing, "draw…"},
		{0, drawing, ""},
		{79, unknown, "summing up 3,142 regions  5 s"},
		{20, unknown, "summing up 3,1…  5 s"},
		{79, early, "drawing  [..............................]  0 %  0 of 139 pictures"},
		{79, long, "working out 120 rows × 160 columns, …  41 %  57 of 139 pictures  12/s  7 s left"},
		{30, wide, "読み込みééé  41 %  7 s left"},
	} {
		got := barLine(c.columns, c.what)
		if got != c.want {
			t.Errorf("%d columns:\n%q, want\n%q", c.columns, got, c.want)
		}
	}
	for columns := range 250 {
		for _, what := range []extent{drawing, unknown, early, long, wide} {
			if got := barLine(columns, what); columnsOf(got) > columns {
				t.Errorf("%d columns: %q has %d", columns, got, columnsOf(got))
			}
		}
	}
}

// Work at an even rate is foretold exactly; after a change the rate follows.
func TestPace(t *testing.T) {
	begin := time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC)
	s := stage{total: 1000, began: begin, pace: newPace(begin)}
	at := begin
	run := func(seconds int, each int64) (r extent) {
		for range seconds * 10 {
			at = at.Add(time.Second / 10)
			s.did.Add(each)
			r = s.measure(at)
		}
		return r
	}
	if r := s.measure(begin); r.rate != 0 || r.left >= 0 {
		t.Errorf("before any work: %+v", r)
	}
	if r := run(20, 2); math.Abs(r.rate-20) > 1e-9 || math.Abs(r.left.Seconds()-30) > 1e-6 {
		t.Errorf("400 of 1000 at 20/s: %v/s, %v left", r.rate, r.left)
	}
	// By hand: what was before counts for e⁻³ of its weight after 30 s, when it
	// weighed 1 - e⁻² of a full memory.
	r := run(30, 1)
	old := (1 - math.Exp(-2)) * math.Exp(-3)
	if want := (20*old + 10*(1-math.Exp(-3))) / (old + 1 - math.Exp(-3)); math.Abs(r.rate-want) > 0.01 {
		t.Errorf("after 30 s at 10/s the rate is %v, want %v", r.rate, want)
	}
	if r := run(100, 1); r.did != 1000 || r.left != 0 {
		t.Errorf("more than all: %+v", r)
	}
}

func TestWrittenTimesAndCounts(t *testing.T) {
	for want, d := range map[string]time.Duration{"0 s": 0, "1 s": time.Millisecond, "59 s": 59 * time.Second, "1 min 0 s": time.Minute, "2 h 5 min": 125 * time.Minute} {
		if got := spent(d); got != want {
			t.Errorf("%v is %q, want %q", d, got, want)
		}
	}
	for want, n := range map[string]int64{"0": 0, "999": 999, "1,000": 1000, "21,800,000": 21800000} {
		if got := grouped(n); got != want {
			t.Errorf("%d is %q, want %q", n, got, want)
		}
	}
	for want, rate := range map[string]float64{"0.3": 0.31, "9.9": 9.94, "10": 9.96, "4,100,000": 4.1e6} {
		if got := paced(rate); got != want {
			t.Errorf("%v is %q, want %q", rate, got, want)
		}
	}
}

func TestVisible(t *testing.T) {
	for text, want := range map[string]string{
		"Vale\n  of\tÿ 読 🌱":  "Vale\n  of\tÿ 読 🌱",
		"\x1b]0;title\a":     `\x1b]0;title\a`,
		"a\u202eb\u009bc\rd": `a\u202eb\u009bc\rd`,
		"bad \xff byte":      `bad \ufffd byte`,
	} {
		if got := visible(text); got != want {
			t.Errorf("%q is shown as %q, want %q", text, got, want)
		}
	}
}
