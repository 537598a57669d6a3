package calibration

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"math"
	"os"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/gonum/mat"

	"weekband/grid/crossing"
	"weekband/grid/oracle"
	"weekband/grid/series"
	"weekband/grid/units"
)

// reference is what the reference network of the contiguous United States
// teaches.
type reference struct {
	network *series.Network
	learned []Truth
	err     error
}

var learnOnce = sync.OnceValue(func() (r reference) {
	read := func(sites, values string) error {
		a, err := os.Open(sites)
		if err != nil {
			return err
		}
		defer a.Close()
		b, err := os.Open(values)
		if err != nil {
			return err
		}
		defer b.Close()
		zip, err := gzip.NewReader(b)
		if err != nil {
			return err
		}
		if r.network, err = series.Decode(series.Text{Reader: a, Name: sites}, series.Text{Reader: zip, Name: values}); err != nil {
			return err
		}
		r.learned, _, err = Learn(r.network, r.network.Clean(series.Rules{}))
		return err
	}
	r.err = read(referenceFiles[0], referenceFiles[1])
	return r
})

var referenceFiles [2]string

// raced is set when the race detector makes fitting slow.
var raced bool

func learnReference(t *testing.T) reference {
	t.Helper()
	if raced {
		t.Skip("fits a national network; runs without the race detector")
	}
	referenceFiles = [2]string{oracle.Data(t, "us/soil-stations.csv"), oracle.Data(t, "us/soil-daily.csv.gz")}
	r := learnOnce()
	if r.err != nil {
		t.Fatal(r.err)
	}
	return r
}

var spring = []crossing.Trigger{
	{Level: units.F.Celsius(50)}, {Level: units.F.Celsius(55)}, {Level: units.F.Celsius(60)}, {Level: units.F.Celsius(65)},
}

// The embedded table is what the reference network teaches, to the digits it
// is written in.
func TestTableUS(t *testing.T) {
	r := learnReference(t)
	if len(r.learned) != 77 {
		t.Fatalf("%d stations, want 77", len(r.learned))
	}
	var b bytes.Buffer
	if err := Encode(&b, Table(r.learned)); err != nil {
		t.Fatal(err)
	}
	var embedded []string
	for line := range strings.Lines(usTable) {
		if !strings.HasPrefix(line, "#") {
			embedded = append(embedded, line)
		}
	}
	if got := strings.Join(embedded, ""); got != b.String() {
		t.Errorf("the embedded table is not what the series teach; renew it as the comment of US says\n%s", firstDifference(got, b.String()))
	}
}

func firstDifference(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			return x[i] + "\n" + y[i]
		}
	}
	return "of different length"
}

// Stations left out: the typical crossing is foretold to less than 4.7 days
// (10 cm, 55 °F), far better than air or one offset, the stated errors hold
// their shares, and 75 to 85 % of single years lie in the interval foretold.
func TestForetellsStationsLeftOut(t *testing.T) {
	r := learnReference(t)
	m, err := New("reference", Table(r.learned))
	if err != nil {
		t.Fatal(err)
	}
	most := map[float64]float64{50: 4.0, 55: 4.5, 60: 5.2, 65: 6.6} // days
	var air, one float64
	for _, s := range Judge(m, r.learned, r.network.Depths, spring) {
		f := math.Round(float64(s.Trigger.Level)*9/5 + 32)
		t.Logf("%s, %v °F, %v: %d stations, bias %+.2f, mean %.2f, median %.2f, rms %.2f, 90 %% %.2f; within %.2f %.2f, years %d, held %.3f %.3f",
			s.Depth.Centimetres(), f, s.Method, s.N, s.Bias, s.MAE, s.Median, s.RMSE, s.P90, s.Within[0], s.Within[1], s.Years, s.Held, s.HeldDefault)
		switch s.Method {
		case AirAsSoil:
			air = s.MAE
		case OneOffset:
			one = s.MAE
		case OwnOffset:
			if s.MAE > 2.2 {
				t.Errorf("%v °F: %v is off by %.2f days, want 2.2", f, s.Method, s.MAE)
			}
		case FarLeftOut:
			if s.MAE > most[f]+0.5 {
				t.Errorf("%v °F: %v is off by %.2f days, want %.1f", f, s.Method, s.MAE, most[f]+0.5)
			}
		case LeftOut:
			if s.N < 60 || s.Missed > 0 || s.MAE > most[f] || s.MAE > 0.66*air || s.MAE > 0.66*one {
				t.Errorf("%v °F, %s: %d stations, off by %.2f days; want %.1f; air %.2f, one offset %.2f", f, s.Depth.Centimetres(), s.N, s.MAE, most[f], air, one)
			}
			if math.Abs(s.Bias) > 1.5 {
				t.Errorf("%v °F: bias %.2f days", f, s.Bias)
			}
			if s.Within[0] < 0.6 || s.Within[0] > 0.8 || s.Within[1] < 0.92 {
				t.Errorf("%v °F: %.2f of the errors within one standard error, %.2f within two", f, s.Within[0], s.Within[1])
			}
			if s.Years < 700 || s.Held < 0.75 || s.Held > 0.85 || s.HeldDefault < 0.75 || s.HeldDefault > 0.85 {
				t.Errorf("%v °F: the interval holds %.3f and %.3f of %d years, want 0.75 to 0.85", f, s.Held, s.HeldDefault, s.Years)
			}
		}
	}
}

// What was tried for the drift: each foretells the stations from the others,
// and from those 250 km away. The one in use does best where it is hardest.
func TestTrialsOfTheDrift(t *testing.T) {
	r := learnReference(t)
	list := Table(r.learned)
	rain := make([]float64, len(list)) // mm a year
	for i := range r.learned {
		rain[i] = yearlyRain(r.learned[i].series)
	}
	mild := func(i int) float64 { return driftOf(list[i].Coldest)[1] }
	trials := []struct {
		name  string
		terms []func(i int) float64
	}{
		{"constant", nil},
		{"log precipitation", terms1(func(i int) float64 { return math.Log(rain[i]) })},
		{"log precipitation from 150 to 700 mm", terms1(func(i int) float64 { return dryness(rain[i]) })},
		{"elevation", terms1(func(i int) float64 { return list[i].Elevation / 1000 })},
		{"latitude", terms1(func(i int) float64 { return list[i].At.Lat / 10 })},
		{"coldest temperature", terms1(func(i int) float64 { return float64(list[i].Coldest) / 10 })},
		{"coldest temperature above 0 °C", terms1(mild)},
		{"that and log precipitation from 150 to 700 mm", []func(int) float64{mild, func(i int) float64 { return dryness(rain[i]) }}},
		{"that and elevation", []func(int) float64{mild, func(i int) float64 { return list[i].Elevation / 1000 }}},
	}
	best, chosen := math.Inf(1), 0.0
	for _, trial := range trials {
		d := mat.NewDense(len(list), 1+len(trial.terms), nil)
		for i := range list {
			d.Set(i, 0, 1)
			for k, term := range trial.terms {
				d.Set(i, k+1, term(i))
			}
		}
		m, err := fit(trial.name, list, d)
		if err != nil {
			t.Fatal(err)
		}
		mae := map[Method][]float64{}
		for _, s := range Judge(m, r.learned, r.network.Depths, spring) {
			if s.Depth == r.network.Depths[1] { // 10 cm
				mae[s.Method] = append(mae[s.Method], s.MAE)
			}
		}
		far := mae[FarLeftOut]
		t.Logf("%-46s left out %s, with 250 km around %s; %v", trial.name, days(mae[LeftOut]), days(far), m.Covariance)
		sum := far[0] + far[1] + far[2] + far[3]
		best = min(best, sum)
		if trial.name == "coldest temperature above 0 °C" {
			chosen = sum
		}
	}
	if chosen > best+0.2 {
		t.Errorf("the drift in use is off by %.2f days at four levels together, another by %.2f", chosen, best)
	}
}

func terms1(f func(int) float64) []func(int) float64 { return []func(int) float64{f} }

func dryness(mm float64) float64 { return math.Log(min(max(mm, 150), 700)) }

func days(mae []float64) string { return fmt.Sprintf("%.2f", mae) }

func yearlyRain(st *series.Station) float64 {
	sum, n := 0.0, 0.0
	for i, ok := range st.Precipitation.Has {
		if ok {
			sum += float64(st.Precipitation.Vals[i])
			n++
		}
	}
	return 365.25 * sum / n
}
