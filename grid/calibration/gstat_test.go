package calibration

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"weekband/grid/oracle"
)

// leaveOneOut is an R script: universal kriging by gstat of one coefficient
// with a drift, in three dimensions, each place foretold from the others.
const leaveOneOut = `
suppressMessages({library(sp); library(gstat)})
d <- read.table("stdin", header = TRUE)
coordinates(d) <- ~x + y + z
k <- krige.cv(v ~ mild, d, vgm(1, "Exp", %.12g, %.12g), nfold = nrow(d), verbose = FALSE)
cat(sprintf("%%.10g %%.10g\n", k$var1.pred, k$var1.var), sep = "")
`

// Every station foretold from the others, and the variance, agree with gstat.
func TestLeaveOutAgainstGstat(t *testing.T) {
	oracle.Need(t, "Rscript")
	m := US()
	left := m.leaveOut(0)
	for k := range 2 { // the others share all but the values
		var in bytes.Buffer
		fmt.Fprintln(&in, "x y z mild v")
		for i, st := range m.stations {
			p, c := m.at[i], coefficientsOf(st.Offset)
			fmt.Fprintf(&in, "%.12g %.12g %.12g %.12g %.12g\n", p[0], p[1], p[2], driftOf(st.Coldest)[1], c[k])
		}
		script := fmt.Sprintf(leaveOneOut, m.Covariance.RangeKm, m.Covariance.Nugget)
		out := bytes.Fields(oracle.Run(t, in.Bytes(), "Rscript", "-e", script))
		if len(out) != 2*len(left) {
			t.Fatalf("gstat answered %d numbers, want %d", len(out), 2*len(left))
		}
		for i, l := range left {
			var estimate, variance float64
			if _, err := fmt.Sscan(string(out[2*i])+" "+string(out[2*i+1]), &estimate, &variance); err != nil {
				t.Fatal(err)
			}
			c := coefficientsOf(l.predicted)
			if math.Abs(c[k]-estimate) > 1e-6 || math.Abs(l.trust.Variance-variance) > 1e-6 {
				t.Errorf("%s, coefficient %d: %.7f (%.7f), gstat %.7f (%.7f)", l.Name, k, c[k], l.trust.Variance, estimate, variance)
			}
		}
	}
}
