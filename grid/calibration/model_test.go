package calibration

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/units"
)

func ExampleModel_At() {
	offset, trust := US().At(grid.LonLat{Lon: -93.6, Lat: 42.0}, -8)
	fmt.Printf("%.1f K warmer than lagged air over the year, to %.1f K in mid-April\n",
		offset.Mean, float64(US().StdErr(trust, season.Date(4, 15))))
	// Output: 0.8 K warmer than lagged air over the year, to 1.0 K in mid-April
}

// Predicting a station by the closed form is what a model without it says.
func TestLeaveOutIsLeavingOut(t *testing.T) {
	m := US()
	for _, km := range []float64{0, 250} {
		for _, l := range m.leaveOut(km)[:12] {
			var others []Station
			for _, st := range m.stations {
				a, b := st.At.Globe(), l.At.Globe()
				if st.ID != l.ID && (km == 0 || a.Distance(&b) > km) {
					others = append(others, st)
				}
			}
			rest := with(t, others, m.Covariance)
			got, trust := rest.At(l.At, l.Coldest)
			if !alike(got, l.predicted, 1e-9) || math.Abs(trust.Variance-l.trust.Variance) > 1e-9 {
				t.Errorf("%s, %v km: %+v (%v), without it %+v (%v)", l.Name, km, l.predicted, l.trust, got, trust)
			}
		}
	}
}

// with returns a model of stations with a covariance that is not fitted.
func with(t *testing.T, list []Station, cov Covariance) *Model {
	t.Helper()
	m, err := New("test", list)
	if err != nil {
		t.Fatal(err)
	}
	m.Covariance = cov
	if m.sys, err = solve(cov, m.at, m.drift, m.values); err != nil {
		t.Fatal(err)
	}
	m.ready()
	return m
}

func alike(a, b soil.Offset, within float64) bool {
	p, q := coefficientsOf(a), coefficientsOf(b)
	for k := range p {
		if math.Abs(p[k]-q[k]) > within {
			return false
		}
	}
	return true
}

func TestLayerIsTheModel(t *testing.T) {
	m := US()
	g, err := grid.New(grid.Box{West: -126, South: 24, East: -66, North: 50}, 260, 600)
	if err != nil {
		t.Fatal(err)
	}
	l := m.Over(g)
	rng := rand.New(rand.NewPCG(1, 2))
	for range 3000 {
		c := grid.Cell{Row: rng.IntN(260), Col: rng.IntN(600)}
		coldest := units.Celsius(30*rng.Float64() - 15)
		got, trust := l.At(c, coldest)
		want, exact := m.At(g.Center(c), coldest)
		if !alike(got, want, 0.03) || math.Abs(trust.Variance-exact.Variance) > 0.02 || math.Abs(trust.Near-exact.Near) > 0.01 {
			t.Errorf("%v: %+v %+v, the model says %+v %+v", c, got, trust, want, exact)
		}
	}
}

// Away from all stations the offset is the general one, and on the way there
// it changes without a jump.
func TestFadesBeyondReach(t *testing.T) {
	m := US()
	var last soil.Offset
	for lon := -68.0; lon < -35; lon += 0.1 {
		o, trust := m.At(grid.LonLat{Lon: lon, Lat: 44.9}, -5)
		if lon > -68 && !alike(o, last, 0.02) {
			t.Errorf("%.1f° E: %+v beside %+v", lon, o, last)
		}
		last = o
		km := nearestKm(m, grid.LonLat{Lon: lon, Lat: 44.9})
		if reach := m.Covariance.RangeKm; km < reach && trust.Near != 1 || km > 2*reach && trust.Near != 0 {
			t.Errorf("%.0f km from the nearest station, %.0f km reach: %v", km, reach, trust.Near)
		}
	}
	if !alike(last, soil.Default.Offset, 0) {
		t.Errorf("in mid-ocean: %+v, want %+v", last, soil.Default.Offset)
	}
	if m.Reaches(grid.Box{West: -50, South: 30, East: -41, North: 40}) || !m.Reaches(grid.Box{West: -70, South: 30, East: -41, North: 40}) {
		t.Error("the reach ends in the wrong place")
	}
}

func nearestKm(m *Model, p grid.LonLat) float64 {
	best, at := math.Inf(1), p.Globe()
	for i := range m.at {
		best = min(best, at.Distance(&m.at[i]))
	}
	return best
}

// Where no station is near, the standard error is the root mean square of
// what soil.DefaultOffset misses at the stations.
func TestErrorOfTheGeneralOffset(t *testing.T) {
	m := US()
	at := int(season.Date(5, 1)) - 1
	square := 0.0
	for _, st := range m.stations {
		o := st.Offset
		x := 2 * math.Pi * float64(at) / 365
		d := o.Mean + o.Cos1*math.Cos(x) + o.Sin1*math.Sin(x) + o.Cos2*math.Cos(2*x) + o.Sin2*math.Sin(2*x) - soil.DefaultOffset
		square += d * d / float64(len(m.stations))
	}
	if got := float64(m.StdErr(Trust{}, season.Date(5, 1))); math.Abs(got-math.Sqrt(square)) > 1e-9 {
		t.Errorf("%v K, want %v", got, math.Sqrt(square))
	}
	g, err := grid.New(grid.Box{West: 0, South: 50, East: 5, North: 52}, 2, 5)
	if err != nil {
		t.Fatal(err)
	}
	if o, trust := Default(g).At(grid.Cell{Row: 1, Col: 2}, 3); o != soil.Default.Offset || trust != (Trust{}) {
		t.Errorf("without stations: %+v, %+v", o, trust)
	}
}

// A field made with a known covariance gives it back, within what 150 places
// can tell.
func TestFindsTheCovariance(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 8))
	want := Covariance{RangeKm: 400, Nugget: 0.5}
	var list []Station
	for i := range 150 {
		list = append(list, Station{
			ID: fmt.Sprint(i), At: grid.LonLat{Lon: 30 + 25*rng.Float64(), Lat: 40 + 15*rng.Float64()},
			Coldest: units.Celsius(20*rng.Float64() - 8),
		})
	}
	var at []grid.Globe
	for _, st := range list {
		at = append(at, st.At.Globe())
	}
	var chol mat.Cholesky
	if !chol.Factorize(want.matrix(at)) {
		t.Fatal("no factor")
	}
	var lower mat.TriDense
	chol.LTo(&lower)
	z := mat.NewDense(150, terms, nil)
	for i := range 150 {
		for k := range terms {
			z.Set(i, k, rng.NormFloat64())
		}
	}
	var field mat.Dense
	field.Mul(&lower, z)
	for i := range list {
		var c coefficients
		mat.Row(c[:], i, &field)
		c[0] += 1.5 + 2*max(float64(list[i].Coldest), 0)/10 // the drift
		list[i].Offset = c.offset()
	}
	m, err := New("made", list)
	if err != nil {
		t.Fatal(err)
	}
	if r := m.Covariance.RangeKm / want.RangeKm; r < 0.6 || r > 1.7 {
		t.Errorf("range %.0f km, want 400", m.Covariance.RangeKm)
	}
	if r := m.Covariance.Nugget / want.Nugget; r < 0.6 || r > 1.7 {
		t.Errorf("nugget %.2f, want 0.5", m.Covariance.Nugget)
	}
	if got := m.beta[1][0]; math.Abs(got-2) > 0.8 {
		t.Errorf("drift %.2f, want 2", got)
	}
}

func TestFewStations(t *testing.T) {
	list := US().stations
	for n := range 5 {
		if _, err := New("few.csv", list[:n]); err == nil || !strings.Contains(err.Error(), "few.csv") {
			t.Errorf("%d stations: %v", n, err)
		}
	}
	same := []Station{list[0], list[0], list[0], list[0], list[0], list[0]}
	if _, err := New("same", same); err == nil {
		t.Error("six stations at one place make a model")
	}
	m, err := New("five", list[:5])
	if err != nil {
		t.Fatal(err)
	}
	if o, _ := m.At(list[0].At, 5); math.IsNaN(o.Mean) || m.Covariance != usual {
		t.Errorf("%+v with %v", o, m.Covariance)
	}
}

func BenchmarkLayer(b *testing.B) {
	g, err := grid.New(grid.Box{West: -125, South: 24, East: -66, North: 50}, 260, 590)
	if err != nil {
		b.Fatal(err)
	}
	l := US().Over(g)
	b.Run("cell", func(b *testing.B) {
		for b.Loop() {
			l.At(grid.Cell{Row: 130, Col: 300}, 2)
		}
	})
	b.Run("over", func(b *testing.B) {
		for b.Loop() {
			US().Over(g)
		}
	})
}
