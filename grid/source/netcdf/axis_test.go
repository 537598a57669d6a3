package netcdf

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
)

// TestGaussian uses the first latitudes of the T62 Gaussian grid, 94 rows, in
// degrees: roots of the Legendre polynomial P94.
func TestGaussian(t *testing.T) {
	m := small(1, typFloat)
	m.vars[0].data = []float64{88.542, 86.6531, 84.7532, 82.8508, 80.9473}
	f, err := open(m.build(), "")
	if err != nil {
		t.Fatal(err)
	}
	_, err = f.Frame()
	e, ok := errors.AsType[*UnevenError](err)
	if !ok || e.Axis != "lat" || len(e.Lats) != 5 || len(e.Lons) != 7 || !strings.Contains(e.Error(), "Gaussian") {
		t.Errorf("%T %v", err, err)
	}
}

func TestFrameRounding(t *testing.T) {
	m := small(1, typFloat)
	for i := range m.vars[1].data { // 1/24 degree in four decimals
		m.vars[1].data[i] = math.Round((-124.6875+float64(i)/24)*1e4) / 1e4
		m.vars[0].data = []float64{49.3542, 49.3125, 49.2708, 49.2292, 49.1875}
	}
	f, err := open(m.build(), "")
	if err != nil {
		t.Fatal(err)
	}
	if got, err := f.Frame(); err != nil || math.Abs(got.West+124.7083) > 1e-4 || got.SouthFirst {
		t.Errorf("%+v, %v", got, err)
	}
	m.vars[1].data = []float64{358.5, 359, 359.5, 0, 0.5, 1, 1.5} // starts again at 0
	if f, err = open(m.build(), ""); err != nil {
		t.Fatal(err)
	}
	if got, err := f.Frame(); err != nil || got.West != 358.25 || got.StepLon != 0.5 {
		t.Errorf("%+v, %v", got, err)
	}
	slices.Reverse(m.vars[1].data)
	if f, err = open(m.build(), ""); err != nil {
		t.Fatal(err)
	}
	if _, err := f.Frame(); err == nil {
		t.Error("falling longitudes were accepted")
	}
}
