package answer

import (
	"fmt"
	"io"
	"math"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/grid/curve"
	"weekband/grid/spread"
	"weekband/grid/status"
	"weekband/grid/worth"
	"weekband/render/lookup"
	"weekband/render/wording"
)

// WorthReply is what applications come to at a place. Shares are of the
// season's germination, dates ISO 8601 month and day.
type WorthReply struct {
	AheadFrom    float64 `json:"ahead_from"`
	OntimeFrom   float64 `json:"ontime_from"`
	OntimeTo     float64 `json:"ontime_to"`
	TwoWeeksLate float64 `json:"two_weeks_late"`
	CatchupTo    float64 `json:"catchup_to"`
	Best         float64 `json:"best"`
	BestDay      string  `json:"best_day"`
	SecondDue    string  `json:"second_due,omitempty"`
	SeedingLast  string  `json:"seeding_last_day,omitempty"`
	OntimeLost   float64 `json:"ontime_days_lost_to_seeding,omitempty"`
	value        status.Value
}

// addYear adds what needs the typical year of soil: what applications come to
// and, with readings, what is expected this year.
func (r *WindowReply) addYear(a *lookup.Answer, readings []Reading) error {
	if !a.Reason.HasDay() {
		return nil
	}
	var year curve.Year
	if !a.Year(&year) {
		return nil
	}
	return r.Reckon(&year, a, readings)
}

// Reckon adds what the typical year of soil tells, which crosses on the day of
// the answer.
func (r *WindowReply) Reckon(year *curve.Year, a *lookup.Answer, readings []Reading) (err error) {
	var work worth.Season
	r.Worth = newWorthReply(a.Window.Value(year, a.Calendar, spread.Together(a.Spread, a.Error), &work))
	if len(readings) == 0 {
		return nil
	}
	r.Outlook, err = expect(year, a, readings)
	return err
}

func newWorthReply(v status.Value) *WorthReply {
	c := &v.Costs
	r := &WorthReply{
		AheadFrom: c.AheadFrom.Worth, OntimeFrom: c.OntimeFrom.Worth, OntimeTo: c.OntimeTo.Worth,
		TwoWeeksLate: c.TwoWeeksLate.Worth, CatchupTo: c.CatchupTo.Worth, Best: c.Best.Worth, BestDay: c.Best.Day.ISO(), value: v,
	}
	if v.SecondDue {
		r.SecondDue = v.Second.ISO()
	}
	if k := v.Seeding; k != nil {
		r.SeedingLast, r.OntimeLost = k.ClosedFrom.ISO(), k.OntimeLost
	}
	return r
}

// Write tells people what applications come to.
func (r *WorthReply) Write(w io.Writer, l *wording.Language, window *status.Window, cal status.Calendar) {
	c := &r.value.Costs
	if c.Best.Worth > 0 {
		fmt.Fprintf(w, "  %s; %s.\n", earlySentence(l, c), lateSentence(l, c))
	}
	fmt.Fprintf(w, "  An application would still stop this share of the season's weeds (residual half-life %.0f days, an illustration):\n", window.Treatment.HalfLife)
	fmt.Fprintf(w, "    %s as ahead of time begins, %s as on time begins, %s as it ends, %s two weeks later, when %s up\n",
		phrase.Percent(c.AheadFrom.Worth), phrase.Percent(c.OntimeFrom.Worth), phrase.Percent(c.OntimeTo.Worth), phrase.Percent(c.TwoWeeksLate.Worth), up(c.TwoWeeksLate.Emerged))
	if r.value.SecondDue {
		below := window.Second.Below
		if below == 0 {
			below = worth.DefaultBelow
		}
		fmt.Fprintf(w, "  After an application in the middle of on time a second is due about %s, when %s is left.\n",
			l.Week(r.value.Second.Week()), RoughShare(below, "its strength"))
	}
	if k := r.value.Seeding; k != nil {
		fmt.Fprintf(w, "  %s\n", seedingSentence(l, window, cal, k))
	}
}

// earlySentence says what the begin of ahead of time costs, of what the best
// day would stop.
func earlySentence(l *wording.Language, c *worth.Costs) string {
	from, cost := l.Date(c.AheadFrom.Day), 1-c.AheadFrom.Worth/c.Best.Worth
	switch {
	case cost < hardlyAny:
		return fmt.Sprintf("Ahead of time is fine from %s and costs next to nothing", from)
	case cost < 0.5:
		return fmt.Sprintf("Ahead of time is fine from %s and costs %s", from, RoughShare(cost, "the strength"))
	}
	return fmt.Sprintf("Ahead of time begins on %s but costs %s", from, RoughShare(cost, "the strength"))
}

// lateCost picks the day of catching up that tells most: when half of the
// weeds are up. Where that comes too late it is the end of catching up, where
// it comes too early two weeks after on time, if catching up lasts as long.
func lateCost(c *worth.Costs) worth.Cost {
	half := c.HalfUp.Day
	switch {
	case half >= c.OntimeTo.Day && half <= c.CatchupTo.Day:
		return c.HalfUp
	case half < c.OntimeTo.Day && c.TwoWeeksLate.Day < c.CatchupTo.Day:
		return c.TwoWeeksLate
	}
	return c.CatchupTo
}

// lateSentence says how many weeds are up then, and what can still be stopped.
func lateSentence(l *wording.Language, c *worth.Costs) string {
	late := lateCost(c)
	if late.Emerged >= nearlyAll {
		return fmt.Sprintf("after %s nearly all the weeds are up, and treating comes too late", l.Date(late.Day))
	}
	rest, left := "the rest", late.Worth/(1-late.Emerged)
	switch {
	case left < 0.6:
		rest = RoughShare(left, "the rest")
	case left < nearlyAll:
		rest = "most of the rest"
	}
	return fmt.Sprintf("after %s %s are up, and treating still stops %s", l.Date(late.Day), RoughShare(late.Emerged, "the weeds"), rest)
}

// seedingSentence says what seeding grass leaves of on time.
func seedingSentence(l *wording.Language, window *status.Window, cal status.Calendar, k *worth.Kept) string {
	text := fmt.Sprintf("Seeding grass on %s: the last application that keeps it open is on %s", l.Date(window.Seeding.Day), l.Date(k.ClosedFrom))
	switch {
	case k.Collides() && k.Ontime < 0.5:
		return text + "; no day of on time is left: treat or seed, not both."
	case k.Collides():
		return text + fmt.Sprintf("; it costs %.0f of the %.0f days of on time.", math.Round(k.OntimeLost), math.Round(float64(cal.OntimeTo-cal.OntimeFrom)))
	}
	return text + ", after on time."
}

// up says how many of the weeds are up.
func up(share float64) string {
	if share < 0.01 {
		return "hardly any are"
	}
	return phrase.Percent(share) + " are"
}
