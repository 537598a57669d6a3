package answer

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/oracle"
)

// The page answers what `lookup --json` answers.
func TestPageAnswersAsTheCommand(t *testing.T) {
	t.Run("invented years", func(t *testing.T) { compareAnswers(t, inventedCases(t, 600), true) })
	t.Run("an edition", func(t *testing.T) { compareAnswers(t, builtCases(t, 300), false) })
}

func compareAnswers(t *testing.T, cases []pageCase, all bool) {
	const driver = `
const cases = JSON.parse(require("fs").readFileSync(0, "utf8"));
console.log(JSON.stringify(cases.map(c => {
  const answer = answerOf(c.window, c.cell, c.year, c.readings);
  return { answer, refused: Boolean(answer.behind.troubles) };
})));`
	in, err := json.Marshal(cases)
	if err != nil {
		t.Fatal(err)
	}
	var page []struct {
		Answer  any
		Refused bool
	}
	if err := json.Unmarshal(oracle.Node(t, in, driver, answerScripts...), &page); err != nil {
		t.Fatal(err)
	}
	seen, wrong, worst := map[string]int{}, 0, 0.0
	for i, c := range cases {
		text, err := json.Marshal(c.reply)
		if err != nil {
			t.Fatal(err)
		}
		var want any
		if err := json.Unmarshal(text, &want); err != nil {
			t.Fatal(err)
		}
		if off := differs("", page[i].Answer, want, &worst); off != "" || page[i].Refused != c.refused {
			if wrong++; wrong <= 5 {
				t.Errorf("case %d, %s: the page refuses %v, the command %v\ncell %+v", i, off, page[i].Refused, c.refused, c.Cell)
			}
		}
		c.count(seen)
	}
	t.Logf("%d cases, %d differ, the numbers of the rest by at most %.1g: %v", len(cases), wrong, worst, seen)
	kinds := []string{"dated", "warming", "cooling", "expected"}
	if all {
		kinds = append(kinds, "never", "always", "flat", "reached", "unlikely", "refused", "seeding", "seeding collides", "second", "over New Year", "south", "no year")
	}
	for _, kind := range kinds {
		if seen[kind] == 0 {
			t.Errorf("no case is of the kind %q", kind)
		}
	}
}

// count counts the kinds a case is of.
func (c *pageCase) count(seen map[string]int) {
	seen[c.reply.Reason]++
	if c.reply.Dates == nil {
		return
	}
	seen[c.Window.Direction.String()]++
	cal := c.answer.Calendar
	for kind, is := range map[string]bool{
		"refused": c.refused, "no year": c.Year == nil, "seeding": c.Window.Seeding != nil && c.Year != nil, "south": c.answer.Day > 183 && c.Window.Direction == crossing.Warming,
		"over New Year":    cal.AheadFrom < 1 || cal.CatchupTo >= 366,
		"second":           c.reply.Worth != nil && c.reply.Worth.SecondDue != "",
		"seeding collides": c.reply.Worth != nil && c.reply.Worth.OntimeLost > 0,
	} {
		if is {
			seen[kind]++
		}
	}
	if c.reply.Outlook != nil {
		seen[c.reply.Outlook.State]++
	}
}

// differs says where two values of JSON differ, numbers by more than 1e-6; worst
// grows to the largest difference of numbers.
func differs(path string, got, want any, worst *float64) string {
	if a, ok := got.(map[string]any); ok {
		b, ok := want.(map[string]any)
		if !ok || len(a) != len(b) {
			return fmt.Sprintf("%s: %v, want %v", path, got, want)
		}
		for key := range b {
			if off := differs(path+"."+key, a[key], b[key], worst); off != "" {
				return off
			}
		}
		return ""
	}
	a, number := got.(float64)
	b, too := want.(float64)
	if number && too {
		off := math.Abs(a - b)
		if off <= 1e-6 {
			*worst = max(*worst, off)
			return ""
		}
	}
	if !reflect.DeepEqual(got, want) {
		return fmt.Sprintf("%s: %v, want %v", path, got, want)
	}
	return ""
}
