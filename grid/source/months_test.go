package source

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/source/geotiff"
)

// TestNormalsLayerNames reads one file whose bands begin with December.
func TestNormalsLayerNames(t *testing.T) {
	g, err := grid.New(grid.Box{West: -91, South: 40, East: -89.5, North: 40.5}, 2, 3)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		names []string
		first float32 // of January
		notes int
	}{
		{"December first", strings.Fields("December January February March April May June July August September October November"), 1, 0},
		{"no names", nil, 0, 0},
		{"a month twice", strings.Fields("January January February March April May June July August September October November"), 0, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b bytes.Buffer
			err := geotiff.Encode(&b, g, 12, func(layer, _, _ int, vals []float32, has []bool) error {
				for i := range vals {
					vals[i], has[i] = float32(layer), true
				}
				return nil
			}, geotiff.WriteOptions{Names: c.names})
			if err != nil {
				t.Fatal(err)
			}
			n, err := OpenNormals([]string{write(t, t.TempDir(), "x.tif", b.String())}, NormalsOptions{})
			if err != nil {
				t.Fatal(err)
			}
			defer n.Close()
			var r Rows
			if err := n.Read(0, 1, &r); err != nil {
				t.Fatal(err)
			}
			if r.Vals[0][0] != c.first || len(n.Notes()) != c.notes {
				t.Errorf("January %v, notes %q", r.Vals[0][0], n.Notes())
			}
		})
	}
}

func TestTimeOrder(t *testing.T) {
	n := &Normals{}
	for i := range 12 {
		n.files = append(n.files, &file{told: Description{Months: []int{(i+6)%12 + 1}}}) // from July on
	}
	if order, ok := n.timeOrder(); !ok || !slices.Equal(order, []int{6, 7, 8, 9, 10, 11, 0, 1, 2, 3, 4, 5}) {
		t.Errorf("%v %v", order, ok)
	}
	n.files[3] = n.files[4]
	if order, ok := n.timeOrder(); ok {
		t.Errorf("%v with a month twice", order)
	}
}

// daily is a data set of as many layers as days, each holding its number.
type daily struct {
	Layers
	days int
}

func (d daily) Count() int            { return d.days }
func (d daily) Describe() Description { return Description{Name: "daily"} }

// Of 366 days 29 February is left out, so that 1 March follows 28 February.
func TestLeapDayIsLeftOut(t *testing.T) {
	order, note, err := layerOrder(daily{days: 366})
	if err != nil || len(order) != 365 || order[58] != 58 || order[59] != 60 || order[364] != 365 || note == "" {
		t.Errorf("%d layers, %v, note %q, %v", len(order), order[57:62], note, err)
	}
	if order, note, err := layerOrder(daily{days: 365}); err != nil || len(order) != 365 || note != "" {
		t.Errorf("%d layers, note %q, %v", len(order), note, err)
	}
}
