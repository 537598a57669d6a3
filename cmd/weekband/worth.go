package main

import (
	"fmt"
	"io"

	"weekband/grid/curve"
	"weekband/grid/spread"
	"weekband/grid/status"
	"weekband/grid/worth"
	"weekband/render/lookup"
	"weekband/render/wording"
)

// worthReply is what applications come to at a place. Shares are of the
// season's germination, dates ISO 8601 month and day.
type worthReply struct {
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
func (r *windowReply) addYear(e *lookup.Edition, s spot, a *lookup.Answer, readings []reading) error {
	if !a.Reason.HasDay() {
		return nil
	}
	var year curve.Year
	ok, err := e.Year(s.At, a, &year)
	if err != nil || !ok {
		return err
	}
	return r.reckon(&year, a, readings)
}

// reckon adds what the typical year of soil tells, which crosses on the day of
// the answer.
func (r *windowReply) reckon(year *curve.Year, a *lookup.Answer, readings []reading) (err error) {
	var work worth.Season
	r.Worth = newWorthReply(a.Window.Value(year, a.Calendar, spread.Together(a.Spread, a.Error), &work))
	if len(readings) == 0 {
		return nil
	}
	r.Outlook, err = expect(year, a, readings)
	return err
}

func newWorthReply(v status.Value) *worthReply {
	c := &v.Costs
	r := &worthReply{
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

// write tells people what applications come to.
func (r *worthReply) write(w io.Writer, l *wording.Language, window *status.Window, cal status.Calendar) {
	c := &r.value.Costs
	fmt.Fprintf(w, "  an application would still stop this share of the season's weeds (residual half-life %.0f days, an illustration):\n", window.Treatment.HalfLife)
	fmt.Fprintf(w, "    %s as ahead of time begins, %s as on time begins, %s as it ends, %s two weeks later, when %s up\n",
		percent(c.AheadFrom.Worth), percent(c.OntimeFrom.Worth), percent(c.OntimeTo.Worth), percent(c.TwoWeeksLate.Worth), up(c.TwoWeeksLate.Emerged))
	if r.value.SecondDue {
		fmt.Fprintf(w, "    after one in the middle of on time a second is due about %s\n", l.Week(r.value.Second.Week()))
	}
	k := r.value.Seeding
	if k == nil {
		return
	}
	fmt.Fprintf(w, "  seeding grass on %s: the last application that keeps it open is on %s", l.Date(window.Seeding.Day), l.Date(k.ClosedFrom))
	switch {
	case k.Collides() && k.Ontime < 0.5:
		fmt.Fprintf(w, "; no day of on time is left: treat or seed, not both\n")
	case k.Collides():
		fmt.Fprintf(w, "; it costs %.0f of the %.0f days of on time\n", k.OntimeLost, float64(cal.OntimeTo-cal.OntimeFrom))
	default:
		fmt.Fprintf(w, ", after on time\n")
	}
}

// up says how many of the weeds are up.
func up(share float64) string {
	if share < 0.01 {
		return "hardly any are"
	}
	return percent(share) + " are"
}

func percent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }
