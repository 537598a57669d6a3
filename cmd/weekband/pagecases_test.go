package main

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"
	"time"

	"weekband/cmd/weekband/internal/answer"
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/worth"
	"weekband/render/lookup"
)

// pageWindow is a window as the page gets it.
type pageWindow = lookup.Window

// pageCase is what the page's script is given for a window of a cell.
type pageCase struct {
	Window   lookup.Window `json:"window"`
	Cell     pageCell      `json:"cell"`
	Year     *curve.Year   `json:"year"` // as the edition keeps it: of the block, not of the cell
	Readings []pageReading `json:"readings"`
	Today    int           `json:"today"`
	answer   lookup.Answer
	reply    answer.WindowReply
	readings []answer.Reading
	refused  bool // the command refuses the readings
}

type pageCell struct {
	Reason string  `json:"reason"`
	Beyond bool    `json:"beyond"`
	Day    float64 `json:"day"`
	From   float64 `json:"from"`
	To     float64 `json:"to"`
	Spread float64 `json:"spread"`
	Error  float64 `json:"error"`
}

type pageReading struct {
	Date string  `json:"date"`
	Soil float64 `json:"soil"`
}

// pageScripts are the parts of the page's script that answers need.
func pageScripts(names ...string) []string {
	var files []string
	for _, name := range names {
		files = append(files, "../../render/site/script/"+name+".js")
	}
	return files
}

var answerScripts = pageScripts("season", "crossing", "emergence", "residual", "worth", "outlook", "answer")

// fill gives the page the cell of the answer.
func (c *pageCase) fill() {
	a := &c.answer
	c.Cell = pageCell{
		Reason: a.Reason.String(), Beyond: a.Beyond, Day: float64(a.Day), From: float64(a.Calendar.OntimeFrom), To: float64(a.Calendar.CatchupTo),
		Spread: a.Spread, Error: a.Error,
	}
	c.reply = answer.NewWindowReply(a)
	c.Readings = []pageReading{}
}

// answerAsCommand completes a case with readings and the command's reply.
func (c *pageCase) answerAsCommand(t *testing.T, rng *rand.Rand) {
	t.Helper()
	c.fill()
	a := &c.answer
	if c.Year == nil || !a.Reason.HasDay() {
		return
	}
	year := *c.Year
	year.Shift(float64(a.Window.Trigger.Level) - year.At(a.Day))
	for range rng.IntN(5) {
		at := a.Day - season.Day(120*rng.Float64()-25)
		month, day := at.MonthDay()
		r := answer.Reading{Date: time.Date(2028, month, day, 0, 0, 0, 0, time.UTC)}
		r.Soil = units.Celsius(year.At(answer.DayOf(r.Date)) + 5*rng.NormFloat64())
		c.readings = append(c.readings, r)
		c.Readings = append(c.Readings, pageReading{r.Date.Format(time.DateOnly), float64(r.Soil)})
	}
	c.refused = c.reply.Reckon(&year, a, c.readings) != nil
}

// windowOf returns a window as the core knows it.
func windowOf(w pageWindow) status.Window {
	out := status.Window{
		ID: w.ID, Title: w.Title, Trigger: crossing.Trigger{Level: w.Threshold, Direction: w.Direction},
		Starts:    crossing.Trigger{Level: w.Starts, Direction: w.Direction},
		Treatment: worth.Treatment{HalfLife: w.HalfLife, Q10: w.Q10, Reference: w.Reference},
		AheadDays: w.Ahead, WorthFloor: w.Floor, Second: worth.SecondRule{Below: w.Below, Until: w.Until},
	}
	if s := w.Seeding; s != nil {
		out.Seeding = &worth.Overseeding{Day: s.Day, Interval: s.Interval, Young: s.Young}
	}
	return out
}

// inventedDoubt is a fixed doubt in days.
type inventedDoubt struct{ spread, error float64 }

func (d inventedDoubt) Spread(float64, season.Day) float64 { return d.spread }
func (d inventedDoubt) Error(float64, season.Day) float64  { return d.error }

// inventedCases draws windows and years of both hemispheres, warming and
// cooling, with and without seeding; some have no day.
func inventedCases(t *testing.T, n int) []pageCase {
	t.Helper()
	rng := rand.New(rand.NewPCG(8, 15))
	var cases []pageCase
	for len(cases) < n {
		mean, swing, coldest := 2+18*rng.Float64(), 3+11*rng.Float64(), 365*rng.Float64()
		year := new(curve.Year)
		for i := range year {
			x := 2 * math.Pi * (float64(i) - coldest) / season.YearDays
			year[i] = mean - swing*math.Cos(x) + 0.7*math.Cos(2*x+3)
		}
		level := mean + swing*(2.2*rng.Float64()-1.1)
		if rng.IntN(2) == 0 { // as real windows have it
			level = 10 + 12*rng.Float64()
		}
		w := pageWindow{
			ID: "invented", Title: "Invented", Direction: crossing.Direction(rng.IntN(2)), Threshold: units.Celsius(level), HalfLife: 15 + 120*rng.Float64(),
			Q10: []float64{0, 1, 2, 2.4}[rng.IntN(4)], Reference: units.Celsius([]float64{0, 20, 25}[rng.IntN(3)]),
			Ahead: 7 * float64(1+rng.IntN(5)), Floor: 0.25, Below: []float64{0, 0.5, 0.7}[rng.IntN(3)], Until: []float64{0, 0.9, 0.6}[rng.IntN(3)],
		}
		w.Starts = w.Threshold - units.Celsius(2.5*w.Direction.Sign())
		if rng.IntN(2) == 0 {
			w.Seeding = &lookup.Seeding{Day: season.Day(1 + rng.IntN(365)), Interval: float64(30 + rng.IntN(90)), Young: float64(60 * rng.IntN(2))}
		}
		c := pageCase{Window: w, Year: new(curve.Year), Today: 1 + rng.IntN(365)}
		*c.Year = *year
		c.Year.Shift(rng.NormFloat64())
		c.answer = judged(windowOf(w), year, inventedDoubt{2 + 15*rng.Float64(), float64(rng.IntN(2)) * 6 * rng.Float64()}, rng.IntN(3) == 0)
		if rng.IntN(20) == 0 {
			c.Year = nil
		}
		c.answerAsCommand(t, rng)
		cases = append(cases, c)
	}
	return cases
}

// judged returns the answer that an edition would give for a year, its days
// rounded to tenths as tiles are.
func judged(w status.Window, year *curve.Year, doubt inventedDoubt, beyond bool) lookup.Answer {
	var work worth.Season
	p := w.Judge(status.Daily{Soil: year, Season: &work}, doubt)
	a := lookup.Answer{Window: w, Reason: p.Crossing.Reason, Beyond: beyond}
	if !a.Reason.HasDay() {
		return a
	}
	tenth := func(d season.Day) season.Day { return season.Day(math.Round(float64(d)*10) / 10) }
	by := season.Day(spread.EarlyBy(spread.Together(p.Spread, p.Error)))
	a.Day, a.Spread, a.Error, a.Calendar = tenth(p.Crossing.Day), p.Spread, p.Error, p.Calendar
	a.Early, a.Late = a.Day-by, a.Day+by
	a.Calendar.OntimeFrom, a.Calendar.OntimeTo, a.Calendar.CatchupTo = tenth(a.Calendar.OntimeFrom), a.Day, tenth(a.Calendar.CatchupTo)
	a.Calendar.AheadFrom = a.Calendar.OntimeFrom - season.Day(w.AheadDays)
	return a
}

// demoCases draws cells of the demo.
func demoCases(t *testing.T, n int) []pageCase {
	t.Helper()
	e, err := lookup.Open(os.DirFS(demoEdition(t)))
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(16, 23))
	var cases []pageCase
	for len(cases) < n {
		at := grid.LonLat{Lon: e.Grid.West + (e.Grid.East-e.Grid.West)*rng.Float64(), Lat: e.Grid.South + (e.Grid.North-e.Grid.South)*rng.Float64()}
		answers, err := e.At(at)
		if err != nil {
			t.Fatal(err)
		}
		for i, a := range answers {
			c := pageCase{Window: e.Windows[i], answer: a, Today: 1 + rng.IntN(365)}
			var year curve.Year
			still := a
			still.Reason = crossing.NoData // without a day a year is not moved
			if still.Year(&year) {
				c.Year = &year
			}
			c.answerAsCommand(t, rng)
			cases = append(cases, c)
		}
	}
	return cases
}
