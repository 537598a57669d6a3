package chart

import (
	"strings"
	"testing"

	"weekband/regions/zonal"
)

// The words of a region's charts say how much of it the weeks hold for: first
// when that is less than half, last when it is not all of it.
func TestChartsTellForHowMuchGroundWeeksHold(t *testing.T) {
	for _, c := range []struct {
		name        string
		shares      zonal.Summary
		share       string
		first, last bool
	}{
		{"all but the sea", zonal.Summary{DatedShare: 0.9, NoDataShare: 0.1}, "", false, false},
		{"most", zonal.Summary{DatedShare: 0.84, AlwaysShare: 0.16}, "84%", false, true},
		{"hardly any", zonal.Summary{DatedShare: 0.004, NeverShare: 0.996}, "<1%", true, false},
		{"a corner", zonal.Summary{DatedShare: 0.3, NoDataShare: 0.7}, "30%", true, false},
	} {
		r := region("Orrendale", 0)
		r.Shares = c.shares
		soil, _ := Soil(nil, &r, measured)
		costs, _ := Worth(nil, &r)
		part := "These weeks hold for " + c.share + " of the region's ground; on the rest none can be told."
		for _, alt := range []string{soil.Alt, costs.Alt} {
			if strings.HasPrefix(alt, part) != c.first || strings.HasSuffix(alt, part) != c.last || strings.Contains(alt, "These weeks hold") != (c.first || c.last) {
				t.Errorf("%s: %q", c.name, alt)
			}
		}
	}
}
