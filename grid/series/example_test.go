package series_test

import (
	"fmt"
	"math"
	"strings"
	"time"

	"weekband/grid/crossing"
	"weekband/grid/series"
	"weekband/grid/units"
)

// A station in an invented place, whose springs come five days late and early
// by turns.
func Example() {
	var values strings.Builder
	values.WriteString("id,date,air_c,soil10_c\n")
	for d := series.NewDate(2014, time.January, 1); d < series.NewDate(2024, time.January, 1); d++ {
		year, _, _ := d.YMD()
		x := 2 * math.Pi * (float64(d.Noon()) - 1 - 18 + float64(year%3-1)*5) / 365
		fmt.Fprintf(&values, "M1,%s,%.1f,%.1f\n", d, 11-13*math.Cos(x)+3*math.Sin(float64(d)), 12-12*math.Cos(x-0.1)+math.Sin(float64(d)/2))
	}
	network, err := series.Decode(
		series.Text{Reader: strings.NewReader("id,name,lat,lon,elev_m\nM1,Merrow Bridge,40.2,-88.1,212\n"), Name: "sites.csv"},
		series.Text{Reader: strings.NewReader(values.String()), Name: "values.csv"})
	if err != nil {
		fmt.Println(err)
		return
	}
	report := network.Clean(series.Rules{})[0]
	ten, _ := network.Depth(0.10)
	station := &network.List[0]
	normal, _ := station.Normal(ten, series.DefaultOrder)
	years := station.Yearly(&station.Soil[ten], &normal.Soil, crossing.Trigger{Level: units.F.Celsius(55)}, series.Trailing7)
	median, _ := years.Quantile(0.5)
	late, _ := years.Quantile(0.9)
	fmt.Println("fit for a typical year:", report.Usable(ten))
	fmt.Println("typical:", years.Normal.Day, "median:", median, "late:", late, "of", years.Count(crossing.Dated), "years")
	// Output:
	// fit for a typical year: true
	// typical: Apr 29 median: May 3 late: May 8 of 10 years
}
