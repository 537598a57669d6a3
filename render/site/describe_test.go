package site_test

import (
	"encoding/json"
	"html"
	"regexp"
	"strings"
	"testing"

	"weekband/regions/zonal"
)

// descriptions returns what a page tells machines and those who share it.
func descriptions(t *testing.T, page string) map[string]string {
	t.Helper()
	found := map[string]string{}
	for name, pattern := range map[string]string{
		"search": `<meta name="description" content="([^"]*)">`, "sharing": `<meta property="og:description" content="([^"]*)">`,
	} {
		if m := regexp.MustCompile(pattern).FindStringSubmatch(page); m != nil {
			found[name] = html.UnescapeString(m[1])
		}
	}
	_, rest, _ := strings.Cut(page, `<script type="application/ld+json">`)
	text, _, _ := strings.Cut(rest, "</script>")
	var m struct{ Description string }
	if err := json.Unmarshal([]byte(text), &m); err != nil {
		t.Fatal(err)
	}
	found["machines"] = m.Description
	return found
}

// A region is described by its weeks where most of its ground has them, with
// the share that has when it is not all, and never without the caution.
func TestDescriptionsOfRegions(t *testing.T) {
	for want, shares := range map[string]zonal.Summary{
		`, on time Jan 11–Feb 8. Check your soil.`:                      {DatedShare: 0.95, NoDataShare: 0.05},
		`, on time Jan 11–Feb 8 on 64% of the ground. Check your soil.`: {DatedShare: 0.64, FlatShare: 0.36},
		`, a week on 4% of its ground only. Check your soil.`:           {DatedShare: 0.04, NeverShare: 0.96},
	} {
		e := edition()
		e.Regions[0].Rows[0].Shares = shares
		out := written(t, e)
		for name, text := range map[string]string{"w": "Wendrow: " + window.Title + want, "e": "Éstrey: no week of the year stands out here. Check your soil."} {
			said := descriptions(t, out.page("regions/"+name+".html"))
			if len(said) != 3 {
				t.Errorf("%s is described %d times: %q", name, len(said), said)
			}
			for who, got := range said {
				if got != text {
					t.Errorf("%s is described for %s as\n%s, want\n%s", name, who, got, text)
				}
			}
		}
		if e.Regions[0].Dated() != (shares.DatedShare >= 0.5) || e.Regions[1].Dated() {
			t.Errorf("%v: the region has a calendar: %v", shares.DatedShare, e.Regions[0].Dated())
		}
	}
}
