package recipe_test

import (
	"strings"
	"testing"
	"time"

	"weekband/cmd/weekband/internal/recipe"
)

func TestEditions(t *testing.T) {
	const lines = "published: 2026-12-01\nearlier:\n- {edition: 2026, published: 2025-12-03, address: https://soil.example/2026/}\n- {edition: 2025, published: \"2024-12-31\"}\n"
	r, err := recipe.Decode([]byte(good+lines), "good.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if want := time.Date(2026, time.December, 1, 0, 0, 0, 0, time.UTC); !r.Published.Equal(want) {
		t.Errorf("published %v, want %v", r.Published, want)
	}
	want := []recipe.Earlier{
		{Edition: 2026, Published: time.Date(2025, time.December, 3, 0, 0, 0, 0, time.UTC), Address: "https://soil.example/2026/"},
		{Edition: 2025, Published: time.Date(2024, time.December, 31, 0, 0, 0, 0, time.UTC)},
	}
	if len(r.Earlier) != 2 || r.Earlier[0] != want[0] || r.Earlier[1] != want[1] {
		t.Errorf("earlier %+v, want %+v", r.Earlier, want)
	}
	if r, err := recipe.Decode([]byte(good), "good.yaml"); err != nil || !r.Published.IsZero() || r.Earlier != nil {
		t.Errorf("without the keys: %v, %v, %v", r.Published, r.Earlier, err)
	}
}

func TestEditionsRefused(t *testing.T) {
	for lines, want := range map[string]string{
		"published: 1 December 2026":                        `25:12: published "1 December 2026": want a day as year-month-day`,
		"published: 2026-02-30":                             "want a day as year-month-day",
		"published: 2026-12":                                "want a day as year-month-day",
		"published: 1026-12-01":                             "want a day as year-month-day",
		"earlier: [{edition: 2026}]":                        "earlier[1] lacks the key published",
		"earlier: [{published: 2025-12-03}]":                "earlier[1] lacks the key edition",
		"earlier: [{edition: 2027, published: 2025-12-03}]": "edition 2027 is no earlier one: this recipe's is 2027",
		"earlier: [{edition: 2026, published: 2025-12-03}, {edition: 2026, published: 2025-12-04}]": "edition 2026 stands twice",
		"published: 2026-12-01\nearlier: [{edition: 2026, published: 2026-12-01}]":                  "want a day before 2026-12-01",
		"earlier: [{edition: 2026, published: 2025-12-03, adress: x}]":                              `did you mean "address"?`,
		"earlier: [{edition: 2026, published: 2025-12-03, address: soil}]":                          `address "soil": want that of the published pages`,
	} {
		_, err := recipe.Decode([]byte(good+lines+"\n"), "bad.yaml")
		if err == nil || !strings.Contains(err.Error(), want) || strings.Count(err.Error(), "\n") > 0 {
			t.Errorf("%s:\n%v\nwant it to hold %q alone", lines, err, want)
		}
	}
}
