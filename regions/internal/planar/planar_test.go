package planar_test

import (
	"fmt"
	"testing"

	"github.com/paulmach/orb"

	"weekband/regions/internal/planar"
)

func TestCheck(t *testing.T) {
	for name, c := range map[string]struct {
		lines []orb.LineString
		ok    bool
	}{
		"a bend":           {[]orb.LineString{{{0, 0}, {2, 0}, {2, 2}}}, true},
		"the same twice":   {[]orb.LineString{{{0, 0}, {2, 0}}, {{2, 0}, {0, 0}}}, true},
		"a cross":          {[]orb.LineString{{{0, 0}, {2, 2}}, {{0, 2}, {2, 0}}}, false},
		"a T":              {[]orb.LineString{{{0, 0}, {2, 0}}, {{1, 0}, {1, 2}}}, false},
		"an overlap":       {[]orb.LineString{{{0, 0}, {2, 0}}, {{0, 0}, {1, 0}}}, false},
		"end to end":       {[]orb.LineString{{{0, 0}, {2, 0}}, {{2, 0}, {3, 0}}}, true},
		"side by side":     {[]orb.LineString{{{0, 0}, {2, 0}}, {{0, 1}, {2, 1}}}, true},
		"partial, aligned": {[]orb.LineString{{{0, 0}, {2, 0}}, {{1, 0}, {3, 0}}}, false},
		"no length":        {[]orb.LineString{{{1, 1}, {1, 1}}}, false},
	} {
		if err := planar.Check(planar.SegmentsOf(c.lines)); (err == nil) != c.ok {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func ExampleCheck() {
	cross := []orb.LineString{{{0, 0}, {2, 2}}, {{0, 2}, {2, 0}}}
	fmt.Println(planar.Check(planar.SegmentsOf(cross)) != nil)
	// Output: true
}
