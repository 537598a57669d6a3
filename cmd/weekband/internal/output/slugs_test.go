package output

import (
	"fmt"
	"strings"
	"testing"

	"weekband/regions"
)

// Names in a script without small Latin letters are numbered; names that are
// the same are told apart by their ids. All are different.
func TestSlugs(t *testing.T) {
	var set regions.Set
	for i := range 25 {
		set.Regions = append(set.Regions, regions.Region{ID: fmt.Sprintf("область %c", 'а'+i), Name: "Край"})
	}
	for _, r := range [][2]string{{"W-1", "Vale"}, {"W-2", "Vale"}, {"W-3", "High Vennet"}, {"W-4", "Sôlenne"}, {"W-5", "CON"}, {"W-6", "Index"}, {"W-7", "../../etc"}, {"W-8", strings.Repeat("Ash", 70)}, {"W-9", "high vennet"}} {
		set.Regions = append(set.Regions, regions.Region{ID: r[0], Name: r[1]})
	}
	got, used := Slugs(set), map[string]bool{}
	for id, s := range got {
		if s == "" || used[s] {
			t.Errorf("%s: %q is empty or used twice", id, s)
		}
		used[s] = true
	}
	for id, want := range map[string]string{"W-1": "vale-w-1", "W-2": "vale-w-2", "W-3": "high-vennet", "W-4": "solenne", "W-5": "region-con", "W-6": "index-2", "W-7": "etc", "W-8": strings.Repeat("ash", 20), "W-9": "high-vennet-2", "область а": "2", "область к": "12"} {
		if got[id] != want {
			t.Errorf("%s: %q, want %q", id, got[id], want)
		}
	}
}
