package season_test

import (
	"fmt"
	"testing"
	"time"

	"weekband/grid/season"
)

func ExampleDay_Week() {
	d := season.Date(time.March, 14)
	fmt.Println(d, d.ISO(), d.Week())
	// Output: Mar 14 03-14 Mar 12–18
}

// The bins of facts about weeks: bin = floor((doy−1)/7)+1, so days 1 to 7 are
// week 1, day 8 week 2, day 364 week 52; 365 would be a 53rd bin and is
// merged into week 52. Day 99 is week 15 here, while ISO 8601 puts it in week
// 14 of 2023 and week 15 of 2024 (checked with the standard library).
func TestWeekBins(t *testing.T) {
	for doy := 1; doy <= season.YearDays; doy++ {
		want := min((doy-1)/7+1, 52)
		for _, part := range []season.Day{0, 0.5, 0.999} {
			if got := (season.Day(doy) + part).Week(); int(got) != want {
				t.Fatalf("day %v is in week %d, want %d", season.Day(doy)+part, got, want)
			}
		}
	}
	if got := season.Day(99).Week(); got != 15 {
		t.Errorf("day 99 is in week %d, want 15", got)
	}
	for year, want := range map[int]int{2023: 14, 2024: 15} {
		if _, iso := time.Date(year, 1, 99, 0, 0, 0, 0, time.UTC).ISOWeek(); iso != want {
			t.Errorf("ISO week of day 99 of %d is %d, want %d", year, iso, want)
		}
	}
	if season.Week(52).End() != 366 || season.Week(52).Begin() != 358 {
		t.Errorf("week 52 is %v to %v", season.Week(52).Begin(), season.Week(52).End())
	}
}

func TestDatesAgreeWithTheCalendar(t *testing.T) {
	for doy := 1; doy <= season.YearDays; doy++ {
		want := time.Date(2023, 1, doy, 0, 0, 0, 0, time.UTC) // 2023 is no leap year
		if got := season.Day(doy).ISO(); got != want.Format("01-02") {
			t.Fatalf("day %d is %s, want %s", doy, got, want.Format("01-02"))
		}
		if season.Date(want.Month(), want.Day()) != season.Day(doy) {
			t.Fatalf("Date(%v) is not day %d", want, doy)
		}
	}
}

func TestAroundNewYear(t *testing.T) {
	if got := season.Day(369.37).In(); got < 4.36 || got > 4.38 {
		t.Errorf("day 369.37 is %v of its own year, want 4.37", got)
	}
	if got := season.Day(-0.5).In().ISO(); got != "12-30" {
		t.Errorf("day -0.5 is %s, want 12-30", got)
	}
	if got := season.Day(360).DaysTo(5); got != 10 {
		t.Errorf("from day 360 to day 5 are %v days, want 10", got)
	}
	if got := season.Day(1).In(); got != 1 {
		t.Errorf("day 1 is %v", got)
	}
	if got := season.Week(52).Next(); got != 1 {
		t.Errorf("after week 52 comes %d", got)
	}
}

func TestSpan(t *testing.T) {
	for _, c := range []struct {
		from, to season.Day
		want     string
	}{
		{71, 78, "Mar 12–18"}, {57, 64, "Feb 26–Mar 4"}, {358, 366, "Dec 24–31"}, {365, 372, "Dec 31–Jan 6"}, {10, 11, "Jan 10"},
	} {
		if got := season.Span(c.from, c.to); got != c.want {
			t.Errorf("Span(%v, %v) = %q, want %q", float64(c.from), float64(c.to), got, c.want)
		}
	}
}

func TestApartIsTheShorterWay(t *testing.T) {
	for _, c := range []struct {
		from, to season.Day
		want     float64
	}{{10, 20, 10}, {20, 10, -10}, {360, 5, 10}, {5, 360, -10}, {1, 183.5, -182.5}, {1, 183.4, 182.4}, {400, 36, 1}, {7, 7, 0}} {
		if got := c.from.Apart(c.to); got < c.want-1e-9 || got > c.want+1e-9 {
			t.Errorf("from %v to %v: %v days, want %v", float64(c.from), float64(c.to), got, c.want)
		}
	}
}
