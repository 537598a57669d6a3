package surface

import (
	"bufio"
	"bytes"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"weekband/grid/oracle"
)

// zinc is an R script that prints the places and the logarithm of zinc of the
// meuse data, then every fifth cell of its grid with gstat's ordinary kriging
// and variance under the published spherical model.
const zinc = `
suppressMessages({library(sp); library(gstat)})
data(meuse); data(meuse.grid)
cat(sprintf("data %.10g %.10g %.10g\n", meuse$x, meuse$y, log(meuse$zinc)), sep = "")
coordinates(meuse) <- ~x + y
coordinates(meuse.grid) <- ~x + y
v <- vgm(0.59060780, "Sph", 897.0209, 0.05066243)
k <- krige(log(zinc) ~ 1, meuse, meuse.grid, v, debug.level = 0)
k <- as.data.frame(k)
cat(sprintf("cell %.10g %.10g %.10g %.10g\n", k$x, k$y, k$var1.pred, k$var1.var), sep = "")
`

// Ordinary kriging of all of the meuse grid agrees with gstat cell by cell,
// and its summary with the one gstat prints in its own tests (prediction min
// 4.7765547, median 5.5728839, max 7.4399911; variance min 0.0854949, max
// 0.5002756).
func TestAgainstGstat(t *testing.T) {
	oracle.Need(t, "Rscript")
	out := oracle.Run(t, nil, "Rscript", "-e", zinc)
	var places [][3]float64
	var cells [][4]float64
	lines := bufio.NewScanner(bytes.NewReader(out))
	for lines.Scan() {
		words := strings.Fields(lines.Text())
		var v [4]float64
		for i, w := range words[1:] {
			var err error
			if v[i], err = strconv.ParseFloat(w, 64); err != nil {
				t.Fatal(err)
			}
		}
		if words[0] == "data" {
			places = append(places, [3]float64(v[:3]))
		} else {
			cells = append(cells, v)
		}
	}
	if len(places) != 155 || len(cells) != 3103 {
		t.Fatalf("%d places and %d cells, want 155 and 3103", len(places), len(cells))
	}
	const sill = 0.59060780
	s := plane2D(Covariance{Shape: Spherical, Sill: 1, Nugget: 0.05066243 / sill, RangeKm: 897.0209}, places, 1)
	var preds, variances []float64
	for _, c := range cells {
		est, unit := s.ask(c[0], c[1])
		variance := unit * sill // of a new sample, nugget included, as gstat gives it
		if math.Abs(est-c[2]) > 1e-6 || math.Abs(variance-c[3]) > 1e-6 {
			t.Fatalf("at %v, %v: %.7f, %.7f; gstat %.7f, %.7f", c[0], c[1], est, variance, c[2], c[3])
		}
		preds, variances = append(preds, est), append(variances, variance)
	}
	slices.Sort(preds)
	for i, want := range map[int]float64{0: 4.7765547, len(preds) / 2: 5.5728839, len(preds) - 1: 7.4399911} {
		if math.Abs(preds[i]-want) > 1e-6 {
			t.Errorf("prediction %d of %d in order is %.7f, want %.7f", i, len(preds), preds[i], want)
		}
	}
	if low, high := slices.Min(variances), slices.Max(variances); math.Abs(low-0.0854949) > 1e-6 || math.Abs(high-0.5002756) > 1e-6 {
		t.Errorf("variance %.7f to %.7f, want 0.0854949 to 0.5002756", low, high)
	}
}
