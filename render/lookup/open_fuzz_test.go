package lookup

import (
	"encoding/json"
	"testing"
	"testing/fstest"

	"weekband/grid"
)

// Whatever an edition's index says, it is opened or refused, and a lookup in
// it ends.
func FuzzOpen(f *testing.F) {
	x := Index{Format: format, Grid: Extent{West: -52, South: 38, East: -48, North: 41, Rows: 6, Cols: 8}, Side: 8, PerDay: 4, Scales: fine.scales(), Years: Years{Stride: 2, PerDegree: 10}, Windows: make([]Window, 1), Language: "en"}
	seed, err := json.Marshal(x)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(seed)
	f.Add([]byte(`{"format":`))
	f.Fuzz(func(t *testing.T, index []byte) {
		e, err := Open(fstest.MapFS{IndexFile: {Data: index}})
		if (e == nil) == (err == nil) {
			t.Fatalf("%v, %v", e, err)
		}
		if err != nil {
			return
		}
		for _, p := range []grid.LonLat{{}, {Lon: -50, Lat: 40}, {Lon: 180, Lat: 90}} {
			if answers, err := e.At(p); err == nil && len(answers) != len(e.Windows) {
				t.Errorf("%d answers of %d windows", len(answers), len(e.Windows))
			}
		}
	})
}
