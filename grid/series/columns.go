package series

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"weekband/grid/units"
)

// columns says where the values of a file stand.
type columns struct {
	id, date, air, precipitation int // -1: no such column
	soil                         []int
	depths                       []units.Metres // of soil, rising
	strange                      []string       // columns that look like soil but are not read
}

const wantValues = "id,date,air_c and soil<N>_c with the depth in cm, such as soil10_c"

// deepest bounds the depth of a sensor in cm: the year's wave of temperature
// hardly reaches further.
const deepest = 300

// findColumns reads the header of the values.
func findColumns(t *table) (c columns, err error) {
	if c.id, err = t.need("id", wantValues); err != nil {
		return c, err
	}
	if c.date, err = t.need("date", wantValues); err != nil {
		return c, err
	}
	c.air, c.precipitation = slices.Index(t.head, "air_c"), slices.Index(t.head, "precip_mm")
	if other := slices.Index(t.head, "tmean_air_c"); other >= 0 {
		if c.air >= 0 {
			return c, fmt.Errorf("%s:1: both air_c and tmean_air_c are there; want one of them", t.name)
		}
		c.air = other
	}
	if c.air < 0 {
		_, err := t.need("air_c", wantValues)
		return c, err
	}
	return c, c.findSoil(t)
}

func (c *columns) findSoil(t *table) error {
	for i, name := range t.head {
		cm, soil := soilDepth(name)
		if !soil {
			if strings.HasPrefix(name, "soil") {
				c.strange = append(c.strange, name)
			}
			continue
		}
		d := units.Metres(cm / 100)
		at, twice := slices.BinarySearch(c.depths, d)
		if twice {
			return fmt.Errorf("%s:1: columns %q and %q are the same depth", t.name, t.head[c.soil[at]], name)
		}
		c.depths, c.soil = slices.Insert(c.depths, at, d), slices.Insert(c.soil, at, i)
	}
	if len(c.soil) == 0 {
		return fmt.Errorf("%s:1: no column of soil temperature; the first line is %q, want %s", t.name, strings.Join(t.head, ","), wantValues)
	}
	return nil
}

// soilDepth reads the depth in cm out of a column name such as soil7.5_c.
func soilDepth(name string) (cm float64, ok bool) {
	text, ok1 := strings.CutPrefix(name, "soil")
	text, ok2 := strings.CutSuffix(text, "_c")
	if !ok1 || !ok2 || strings.Trim(text, "0123456789.") != "" {
		return 0, false
	}
	cm, err := strconv.ParseFloat(text, 64)
	return cm, err == nil && cm >= 0 && cm <= deepest
}
