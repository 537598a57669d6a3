package recipe_test

import (
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/recipe"
)

// Texts that cannot be printed, or name no file everywhere, are refused; those
// that only look like a format of some output are texts.
func TestTextsOfARecipe(t *testing.T) {
	replaced := func(from, to string) string { return strings.Replace(good, from, to, 1) }
	for name, c := range map[string]struct{ text, want string }{
		"control":     {replaced("title: Spring soil warm-up, Merrow Vale", `title: "Soil \u001b[31m"`), "title holds the control character U+001B, which cannot be printed; leave it out"},
		"direction":   {replaced("credits: Invented data", `credits: "data \u202E"`), "credits holds the control character U+202E"},
		"long title":  {replaced("title: Spring soil", "title: "+strings.Repeat("Spring ", 40)), "title has "},
		"long window": {replaced("title: Winter annual", "title: "+strings.Repeat("Winter ", 40)), "title has "},
		"long credit": {replaced("credits: ", "credits: "+strings.Repeat("Invented ", 120)), "credits has 1093 letters; want at most 1000"},
		"device":      {replaced("id: winter-annuals", "id: con"), `id "con": Windows keeps this name for a device`},
	} {
		if _, err := recipe.Decode([]byte(c.text), "x.yaml"); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %q", name, err, c.want)
		}
	}
	const title = `</title><script>=1+1 {{.}} 'a' "b" & שלום 🌾`
	r, err := recipe.Decode([]byte(replaced("title: Spring soil warm-up, Merrow Vale", "title: |\n  "+title+"\n  on two lines\n")), "x.yaml")
	if err != nil || r.Title != title+" on two lines" {
		t.Errorf("got %q, %v", r.Title, err)
	}
}
