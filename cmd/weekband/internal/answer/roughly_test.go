package answer

import (
	"fmt"
	"strings"
	"testing"

	"weekband/grid/oracle"
)

// A share is written as the nearest fraction that people use.
func TestRoughShares(t *testing.T) {
	for share, want := range map[float64]string{
		0: "hardly any of it", 0.024: "hardly any of it", 0.03: "about a twentieth of it", 0.08: "about a tenth of it", 0.17: "about a fifth of it",
		0.24: "about a quarter of it", 0.3: "about a third of it", 0.46: "about half it", 0.53: "about half it", 0.64: "about two thirds of it",
		0.7: "about two thirds of it", 0.72: "about three quarters of it", 0.79: "about four fifths of it", 0.94: "about nine tenths of it", 0.95: "nearly all it", 1: "nearly all it",
	} {
		if got := roughShare(share, "it"); got != want {
			t.Errorf("%v is %q, want %q", share, got, want)
		}
	}
}

// The page and the command round shares and days to the same words.
func TestPageRoundsAsTheCommand(t *testing.T) {
	var want strings.Builder
	for i := range 1001 {
		fmt.Fprintln(&want, roughShare(float64(i)/1000, "it"), roughDays(float64(i)/40))
	}
	const driver = `for (let i = 0; i <= 1000; i++) console.log(roughShare(i / 1000, "it"), roughDays(i / 40));`
	if got := string(oracle.Node(t, nil, driver, pageScripts("roughly")...)); got != want.String() {
		t.Errorf("the page rounds otherwise:\n%s\nwant\n%s", got, &want)
	}
}
