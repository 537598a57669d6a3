package calibration

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/series"
	"weekband/grid/soil"
)

// made writes the series of one invented station: air a cosine with weather,
// soil what the model gives for the cosine with an offset, with a lag of the
// weather and a difference of its own from year to year.
func made(offset soil.Offset, years int, yearly float64) string {
	rng := rand.New(rand.NewPCG(3, 9))
	var air, ground curve.Year
	for i := range air {
		air[i] = 9 - 12*math.Cos(2*math.Pi*(float64(i)-20)/365)
	}
	m := soil.Default
	m.Offset = offset
	m.Apply(&air, &ground)
	var b strings.Builder
	b.WriteString("id,date,air_c,soil10_c\n")
	weather, damped := 0.0, 0.0
	date := series.NewDate(2010, 1, 1)
	for range years {
		own := yearly * rng.NormFloat64()
		for i := range 365 {
			weather = 0.8*weather + 2*rng.NormFloat64()
			damped += 0.2 * (weather - damped)
			noon := season.Day(float64(i) + 1.5)
			fmt.Fprintf(&b, "A,%v,%.3f,%.3f\n", date, air.At(noon)+weather, ground.At(noon)+damped+own)
			date++
			if _, mm, dd := date.YMD(); mm == 2 && dd == 29 {
				date++
			}
		}
	}
	return b.String()
}

func learnMade(t *testing.T, text string) Truth {
	t.Helper()
	sites := "id,name,lat,lon,elev_m\nA,Fenmark,37,-45,120\n"
	n, err := series.Decode(series.Text{Reader: strings.NewReader(sites), Name: "s"}, series.Text{Reader: strings.NewReader(text), Name: "v"})
	if err != nil {
		t.Fatal(err)
	}
	learned, skipped, err := Learn(n, n.Clean(series.Rules{}))
	if err != nil || len(learned) != 1 {
		t.Fatalf("%d stations, %v, %v", len(learned), skipped, err)
	}
	return learned[0]
}

func TestLearnsTheOffset(t *testing.T) {
	want := soil.Offset{Mean: 2, Cos1: -1, Sin1: 0.5, Cos2: 0.3, Sin2: -0.2}
	got := learnMade(t, made(want, 12, 0.3))
	if !alike(got.Offset, want, 0.2) {
		t.Errorf("%+v, want %+v", got.Offset, want)
	}
	if got.ID != "A" || got.Elevation != 120 || math.Abs(got.Years-12) > 0.1 || math.Abs(float64(got.Coldest)+3) > 0.5 {
		t.Errorf("station %+v", got.Station)
	}
	if got.Residual > 0.2 {
		t.Errorf("residual %.2f K", got.Residual)
	}
}

// Years that differ by 0.9 K leave the mean offset uncertain by 0.9/√12 K.
func TestStandardErrorsFromYearToYear(t *testing.T) {
	sum := learnMade(t, made(soil.Offset{Mean: 2}, 12, 0.9)).StdErr.Mean
	if want := 0.9 / math.Sqrt(12); sum < 0.6*want || sum > 1.5*want {
		t.Errorf("standard error %.3f K, want about %.3f", sum, want)
	}
	if got := learnMade(t, made(soil.Offset{Mean: 2}, 12, 0)).StdErr.Mean; got > 0.1 {
		t.Errorf("alike years: standard error %.3f K", got)
	}
}

func TestFrozenDaysCountLittle(t *testing.T) {
	var air, ground curve.Year
	for i := range air {
		air[i] = 5 - 15*math.Cos(2*math.Pi*(float64(i)-20)/365)
	}
	m := soil.Default
	m.Offset = soil.Offset{Mean: 1.5}
	m.Apply(&air, &ground)
	for i := range ground {
		ground[i] = max(ground[i], 0) // snow holds it at the freezing point
	}
	o, _ := offsetOf(&air, &ground)
	c := coefficientsOf(o)
	if got := c.at(150); math.Abs(got-1.5) > 0.15 { // end of May
		t.Errorf("offset at the end of May is %.2f K, want 1.5: winter bends it", got)
	}
}

// Stations that teach nothing are named, and why.
func TestSkippedStations(t *testing.T) {
	decode := func(sites, values string) *series.Network {
		n, err := series.Decode(series.Text{Reader: strings.NewReader(sites), Name: "s"}, series.Text{Reader: strings.NewReader(values), Name: "v"})
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	const sites = "id,name,lat,lon,elev_m\nA,Fenmark,37,-45,120\nB,Lowen,38,-45,10\n"
	spring := "B,2015-04-01,9,10\nB,2015-04-02,9.5,10.2\n"
	n := decode(sites, made(soil.Offset{Mean: 2}, 6, 0)+spring)
	learned, skipped, err := Learn(n, n.Clean(series.Rules{}))
	if err != nil || len(learned) != 1 || len(skipped) != 1 || skipped[0] != "B Lowen: its series did not pass the check" {
		t.Errorf("%d learned, skipped %q, %v", len(learned), skipped, err)
	}
	// Without the check B has no day in most months.
	if learned, skipped, err = Learn(n, make([]series.Report, 2)); err != nil || len(learned) != 1 || len(skipped) != 1 ||
		skipped[0] != "B Lowen: a calendar month has no day with both air and soil" {
		t.Errorf("%d learned, skipped %q, %v", len(learned), skipped, err)
	}
	if _, _, err := Learn(&series.Network{}, nil); err == nil || !strings.Contains(err.Error(), "soil10_c") {
		t.Errorf("a network without a sensor: %v", err)
	}
}
