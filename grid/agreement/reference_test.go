package agreement_test

import (
	"compress/gzip"
	"math"
	"os"
	"testing"

	"weekband/grid/agreement"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/oracle"
	"weekband/grid/series"
	"weekband/grid/units"
)

// raced is set when the race detector makes reading a national network slow.
var raced bool

func network(t *testing.T) *series.Network {
	t.Helper()
	if raced {
		t.Skip("reads a national network; runs without the race detector")
	}
	sites, err := os.Open(oracle.Data(t, "us/soil-stations.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer sites.Close()
	values, err := os.Open(oracle.Data(t, "us/soil-daily.csv.gz"))
	if err != nil {
		t.Fatal(err)
	}
	defer values.Close()
	zip, err := gzip.NewReader(values)
	if err != nil {
		t.Fatal(err)
	}
	n, err := series.Decode(series.Text{Reader: sites, Name: "sites"}, series.Text{Reader: zip, Name: "values"})
	if err != nil {
		t.Fatal(err)
	}
	n.Clean(series.Rules{})
	return n
}

// log returns the days of a sensor, of which only every nth was read.
func log(st *series.Station, soil, every, phase int) *agreement.Log {
	l := &agreement.Log{Name: st.Name, At: st.At}
	for i, ok := range st.Soil[soil].Has {
		if ok && int(st.Date(i))%every == phase {
			l.Readings = append(l.Readings, agreement.Reading{Date: st.Date(i), Soil: units.Celsius(st.Soil[soil].Vals[i])})
		}
	}
	return l
}

// On 77 reference stations: the years of daily logs are those
// of the strict rule of the package series where both have them, and rarer
// readings move the median year by days that the documentation tells.
func TestDaysOfYearsOnReferenceStations(t *testing.T) {
	n := network(t)
	soil, ok := n.Depth(0.1)
	if !ok {
		t.Fatal("no soil at 10 cm")
	}
	trigger := crossing.Trigger{Level: units.F.Celsius(55)}
	same, all := 0, 0
	moved := map[int][]float64{}
	for i := range n.List {
		st := &n.List[i]
		normal, ok := st.Normal(soil, 0)
		if !ok {
			continue
		}
		var year curve.Year
		normal.Soil.Sample(&year)
		m := agreement.Map{Year: &year, Trigger: trigger, Spread: 11}
		daily := agreement.Compare(log(st, soil, 1, 0), m)
		if !daily.Crossing.Reason.HasDay() {
			continue
		}
		if math.Abs(float64(daily.Departure)) > 0.05 {
			t.Errorf("%s departs by %.3f K from its own normal", st.Name, daily.Departure)
		}
		strict := map[int]float64{}
		for _, y := range st.Yearly(&st.Soil[soil], &normal.Soil, trigger, series.Trailing7).Years {
			if y.Reason == crossing.Dated {
				strict[y.Year] = float64(y.Day)
			}
		}
		for _, y := range daily.Years {
			if want, ok := strict[y.Year]; ok {
				all++
				if math.Abs(float64(y.Day.In())-want) < 1.01 {
					same++
				}
			}
		}
		for _, every := range []int{3, 7, 14} {
			for phase := range every {
				rare := agreement.Compare(log(st, soil, every, phase), m)
				if len(rare.Years) > 5 && len(daily.Years) > 5 {
					moved[every] = append(moved[every], float64(rare.Median-daily.Median))
				}
			}
		}
	}
	if all < 600 || float64(same) < 0.97*float64(all) {
		t.Errorf("%d of %d years agree with the strict rule", same, all)
	}
	for every, list := range moved {
		mean, square := 0.0, 0.0
		for _, v := range list {
			mean += v / float64(len(list))
			square += v * v / float64(len(list))
		}
		sd := math.Sqrt(square - mean*mean)
		t.Logf("one reading in %d days moves the median year by %+.2f, sd %.2f days, %d logs", every, mean, sd, len(list))
		if math.Abs(mean) > 3 || sd > 5.5 {
			t.Errorf("one reading in %d days moves the median year by %+.2f ± %.2f days", every, mean, sd)
		}
	}
}
