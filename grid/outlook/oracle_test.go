package outlook

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/oracle"
	"weekband/grid/season"
	"weekband/grid/units"
)

// Mean and variance of a Gaussian given others, from the inverse of the whole
// joint covariance by numpy. That is another way to the same numbers.
func TestMemoryAgainstNumpy(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	var in bytes.Buffer
	var want [][2]float64
	for n := 1; n <= 8; n++ {
		p := Place{Spread: 3 + 12*rng.Float64(), Error: 6 * rng.Float64()}
		slope, target := 0.1+0.2*rng.Float64(), 30*rng.Float64()
		moments, departures := make([]float64, n), make([]float64, n)
		fmt.Fprintf(&in, "%v %v %v %v %d", p.Spread, p.Error, slope, target, n)
		for i := range n {
			moments[i], departures[i] = -math.Floor(30*rng.Float64()), 4*rng.NormFloat64() // days may repeat
			fmt.Fprintf(&in, " %v %v", moments[i], departures[i])
		}
		fmt.Fprintln(&in)
		m := remember(&p, slope, moments, departures)
		want = append(want, [2]float64{m.expected(target), m.explained(target)})
	}
	out := strings.Fields(string(oracle.Numpy(t, in.Bytes(), "testdata/gauss.py")))
	if len(out) != 2*len(want) {
		t.Fatalf("%d numbers, want %d", len(out), 2*len(want))
	}
	for i, ours := range want {
		var mean, share float64
		fmt.Sscan(out[2*i], &mean)
		fmt.Sscan(out[2*i+1], &share)
		if math.Abs(mean-ours[0]) > 1e-9 || math.Abs(share-ours[1]) > 1e-9 {
			t.Errorf("%d readings: %v K and %v explained, numpy has %v and %v", i+1, ours[0], ours[1], mean, share)
		}
	}
}

type pagePlace struct {
	Normal  []float64 `json:"normal"`
	Level   float64   `json:"level"`
	Cooling bool      `json:"cooling"`
	Day     float64   `json:"day"`
	Slope   float64   `json:"slope"`
	Origin  float64   `json:"origin"`
	Spread  float64   `json:"spread"`
	Error   float64   `json:"error"`
}

type pageReading struct {
	Day  float64 `json:"day"`
	Soil float64 `json:"soil"`
}

type pageCase struct {
	Place    pagePlace     `json:"place"`
	Readings []pageReading `json:"readings"`
}

// The page's script needs no library and gives the same days.
func TestScriptGivesTheSameDays(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	var cases []pageCase
	var ours []Outlook
	for len(cases) < 500 {
		c, o := drawCase(t, rng)
		if o.State != Undated {
			cases, ours = append(cases, c), append(ours, o)
		}
	}
	in, err := json.Marshal(cases)
	if err != nil {
		t.Fatal(err)
	}
	var theirs []struct {
		State            string
		Early, Day, Late float64
		Departure        float64
		Troubles         int
	}
	const driver = `
const cases = JSON.parse(require("fs").readFileSync(0, "utf8"));
console.log(JSON.stringify(cases.map(c => ({ ...outlook(c.place, c.readings), troubles: readingTroubles(c.place.normal, c.readings).length }))));`
	const scripts = "../../render/site/script/"
	out := oracle.Node(t, in, driver, scripts+"season.js", scripts+"crossing.js", scripts+"outlook.js")
	if err := json.Unmarshal(out, &theirs); err != nil {
		t.Fatal(err)
	}
	seen := map[State]int{}
	for i, o := range ours {
		s := theirs[i]
		seen[o.State]++
		far := math.Abs(s.Day-float64(o.Day)) + math.Abs(s.Early-float64(o.Early)) + math.Abs(s.Late-float64(o.Late)) + math.Abs(s.Departure-float64(o.Departure))
		if s.State != o.State.String() || far > 1e-6 || s.Troubles > 0 {
			t.Errorf("case %d: script %+v, ours %+v", i, s, o)
		}
	}
	if seen[Expected] < 100 || seen[Reached] < 10 || seen[Unlikely] < 1 {
		t.Errorf("cases are one-sided: %v", seen)
	}
}

// The page refuses the readings that Check refuses.
func TestScriptRefusesTheSameReadings(t *testing.T) {
	p := Place{Normal: new(curve.Year), Spread: 10}
	for i := range p.Normal {
		p.Normal[i] = 8 - 12*math.Cos(2*math.Pi*float64(i)/season.YearDays)
	}
	var readings []pageReading
	want := 0
	for day := 1.5; day < 366; day += 7 {
		for _, off := range []float64{-60, -16.01, -15.99, 0, 15.99, 16.01, 60} {
			r := Reading{season.Day(day), p.normalAt(season.Day(day)) + units.Celsius(off)}
			readings = append(readings, pageReading{day, float64(r.Soil)})
			if p.Check([]Reading{r}) != nil {
				want++
			}
		}
	}
	in, err := json.Marshal(pageCase{Place: pagePlace{Normal: p.Normal[:]}, Readings: readings})
	if err != nil {
		t.Fatal(err)
	}
	const driver = `
const { place, readings } = JSON.parse(require("fs").readFileSync(0, "utf8"));
console.log(readingTroubles(place.normal, readings).length);`
	const scripts = "../../render/site/script/"
	var got int
	fmt.Sscan(string(oracle.Node(t, in, driver, scripts+"season.js", scripts+"crossing.js", scripts+"outlook.js")), &got)
	if got != want || want != len(readings)*4/7 {
		t.Errorf("the page refuses %d readings of %d, Check %d", got, len(readings), want)
	}
}

// drawCase returns a case for the script and what the package makes of it.
func drawCase(t *testing.T, rng *rand.Rand) (pageCase, Outlook) {
	t.Helper()
	p := Place{Normal: new(curve.Year), Spread: 4 + 12*rng.Float64(), Error: 6 * rng.Float64()}
	mean, a, coldest := 4+12*rng.Float64(), 9+6*rng.Float64(), 365*rng.Float64()
	level := mean + a*(1.8*rng.Float64()-0.9)
	p.Trigger = crossing.Trigger{Level: units.Celsius(level), Direction: crossing.Direction(rng.IntN(2))}
	for i := range p.Normal {
		p.Normal[i] = mean - a*math.Cos(2*math.Pi*(float64(i)-coldest)/season.YearDays)
	}
	typical := crossing.Find(p.Normal, p.Trigger)
	c := pageCase{Readings: []pageReading{}, Place: pagePlace{
		p.Normal[:], float64(p.Trigger.Level), p.Trigger.Direction == crossing.Cooling,
		float64(typical.Day), typical.Slope, float64(typical.Origin), p.Spread, p.Error,
	}}
	var readings []Reading
	for range rng.IntN(5) {
		day := (typical.Day - season.Day(100*rng.Float64()-20)).In()
		readings = append(readings, Reading{day, p.normalAt(day) + units.Celsius(max(-14, min(14, 5*rng.NormFloat64())))})
		c.Readings = append(c.Readings, pageReading{float64(day), float64(readings[len(readings)-1].Soil)})
	}
	o, err := p.Expect(readings)
	if err != nil {
		t.Fatal(err)
	}
	return c, o
}
