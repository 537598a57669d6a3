package series

import (
	"slices"
	"strconv"
	"strings"

	"weekband/grid/table"
	"weekband/grid/units"
)

// columns says where the values of a file stand.
type columns struct {
	id, date, air, precipitation table.Column
	soil                         []table.Column
	depths                       []units.Metres // of soil, rising
	strange                      []string       // columns that look like soil but are not read
}

const wantValues = "id,date,air_c and soil<N>_c with the depth in cm, such as soil10_c"

// deepest bounds the depth of a sensor in cm: the year's wave of temperature
// hardly reaches further.
const deepest = 300

// findColumns reads the header of the values.
func findColumns(t *table.Table) (c columns, err error) {
	c.id, c.date = t.Find("id"), t.Find("date")
	c.air, c.precipitation = t.Find("air_c"), t.Find("precip_mm")
	other := t.Find("tmean_air_c")
	if c.air != 0 && other != 0 {
		return c, t.HeadError("both air_c and tmean_air_c are there, and one is enough")
	}
	if c.air = max(c.air, other); c.air == 0 {
		return c, t.HeadError("no column %q", "air_c")
	}
	return c, c.findSoil(t)
}

func (c *columns) findSoil(t *table.Table) error {
	names := map[units.Metres]string{}
	for i, name := range t.Columns() {
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
			return t.HeadError("columns %q and %q are the same depth", names[d], name)
		}
		names[d] = name
		c.depths, c.soil = slices.Insert(c.depths, at, d), slices.Insert(c.soil, at, i)
	}
	if len(c.soil) == 0 {
		return t.HeadError("no column of soil temperature")
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
