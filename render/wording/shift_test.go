package wording_test

import (
	"testing"

	"weekband/grid/classes"
	"weekband/render/wording"
)

// Labels name the week a class is about where it is one week wide, and its
// limits otherwise; both sides are told apart.
func TestShiftLabels(t *testing.T) {
	w := wording.English().Sentences.Shift
	for _, c := range []struct {
		class classes.Class
		step  int // 0 for days
		want  string
	}{
		{classes.Class{From: -1, To: 1}, 0, "within 1 day"}, {classes.Class{From: -2, To: 2}, 0, "within 2 days"},
		{classes.Class{From: -5, To: -2}, 0, "2–5 days earlier"}, {classes.Class{From: 10, To: 20, OpenEnd: true}, 0, "10 days or more later"},
		{classes.Class{From: -20, To: -10, OpenBegin: true}, 0, "10 days or more earlier"},
		{classes.Class{From: -3.5, To: 3.5}, 1, "within half a week"}, {classes.Class{From: -10.5, To: -3.5}, 1, "about 1 week earlier"},
		{classes.Class{From: 10.5, To: 17.5}, 1, "about 2 weeks later"}, {classes.Class{From: 17.5, To: 24.5, OpenEnd: true}, 1, "3 weeks or more later"},
		{classes.Class{From: -7, To: 7}, 2, "within 1 week"}, {classes.Class{From: 7, To: 21}, 2, "1–3 weeks later"},
		{classes.Class{From: -49, To: -35, OpenBegin: true}, 2, "5 weeks or more earlier"}, {classes.Class{From: -14, To: 14}, 4, "within 2 weeks"},
	} {
		got := w.Days(c.class)
		if c.step > 0 {
			got = w.Weeks(c.class, c.step)
		}
		if got != c.want {
			t.Errorf("%+v in steps of %d weeks: %q, want %q", c.class, c.step, got, c.want)
		}
	}
}
