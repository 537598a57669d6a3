package chart

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"weekband/grid/worth"
)

// The line of the window's own treatment passes through the costs of the
// region's report, and a longer residual is worth more.
func TestWorthAgreesWithTheReport(t *testing.T) {
	r := region("Orrendale", 0)
	c, ok := Worth(nil, &r)
	if !ok {
		t.Fatal("no chart")
	}
	o := decoded(t, c)
	if len(o.Series) != 3 {
		t.Fatalf("%d lines, want 3", len(o.Series))
	}
	medium := o.Series[1].Data
	for _, k := range []worth.Cost{r.Value.Costs.AheadFrom, r.Value.Costs.OntimeFrom, r.Value.Costs.OntimeTo, r.Value.Costs.CatchupTo} {
		for i := 1; i < len(medium); i++ {
			a, b := medium[i-1].Value, medium[i].Value
			if at := float64(k.Day); a[0] <= at && at < b[0] {
				if got := a[1] + (at-a[0])/(b[0]-a[0])*(b[1]-a[1]); math.Abs(got-100*k.Worth) > 1.5 {
					t.Errorf("on %v the line is at %.1f %%, the report has %.1f %%", k.Day, got, 100*k.Worth)
				}
			}
		}
	}
	for i := range medium {
		if s, m, l := o.Series[0].Data[i].Value[1], medium[i].Value[1], o.Series[2].Data[i].Value[1]; s > m || m > l {
			t.Errorf("day %v: short %v, medium %v, long %v", medium[i].Value[0], s, m, l)
		}
	}
	if !strings.Contains(c.Note, "label is the law") || !strings.Contains(c.Note, "illustration") {
		t.Errorf("no caution in %q", c.Note)
	}
	own := regexp.MustCompile(`^medium own$`)
	if !own.MatchString(c.Key[1].Class) {
		t.Errorf("the window's own treatment is not marked: %+v", c.Key)
	}
}

// A half-life that is none of the classes gets a line of its own.
func TestOwnHalfLifeIsShown(t *testing.T) {
	odd := spring
	odd.Treatment = worth.Usual(45)
	r := region("Orrendale", 0)
	r.Window = &odd
	c, _ := Worth(nil, &r)
	if o := decoded(t, c); len(o.Series) != 4 || o.Series[3].Name != "other" || len(c.Table.Head) != 6 {
		t.Errorf("%d series, head %q", len(o.Series), c.Table.Head)
	}
	if last := c.Key[3]; last.Class != "other own" || !strings.Contains(last.Words, "45 days") {
		t.Errorf("key %+v", c.Key)
	}
}
