package netcdf

import (
	"strings"
	"testing"
)

func TestChoose(t *testing.T) {
	two := small(1, typFloat)
	two.vars = append(two.vars, two.vars[3])
	two.vars[4].name = "tmin"
	level := small(1, typFloat)
	level.dims = append(level.dims, madeDim{"level", 1})
	level.vars[3].dims = []int{0, 3, 1, 2}
	inner := small(1, typFloat) // a level of one outside the time
	inner.dims = append(inner.dims, madeDim{"level", 1})
	inner.vars[3].dims = []int{3, 0, 1, 2}
	levels := small(1, typFloat)
	levels.dims[0].length = 6
	levels.vars[2].data = levels.vars[2].data[:6]
	levels.dims = append(levels.dims, madeDim{"level", 2})
	levels.vars[3].dims = []int{0, 3, 1, 2}
	flat := small(1, typFloat)
	flat.vars[3].dims, flat.vars[3].data = []int{1, 2}, flat.vars[3].data[:35]
	turned := small(1, typFloat)
	turned.vars[3].dims = []int{0, 2, 1}
	projected := small(1, typFloat)
	projected.vars[0].attrs = []madeAttr{textAttr("units", "m"), textAttr("standard_name", "projection_y_coordinate")}
	projected.vars[1].attrs = []madeAttr{textAttr("units", "m"), textAttr("standard_name", "projection_x_coordinate")}
	byName := small(1, typFloat)
	byName.vars[0].attrs, byName.vars[1].attrs = nil, []madeAttr{textAttr("units", "degrees"), textAttr("axis", "X")}
	for _, c := range []struct {
		name     string
		m        made
		variable string
		count    int
		err      string
	}{
		{"only one", small(1, typFloat), "", 12, ""},
		{"named", two, "tmin", 12, ""},
		{"two", two, "", 0, "name one of tavg(time=12, lat=5, lon=7) in degC, tmin("},
		{"not there", two, "tmax", 0, `no variable "tmax"; the file has lat(lat=5) in degrees_north`},
		{"a coordinate", two, "lat", 0, "last two dimensions"},
		{"level of one", level, "", 12, ""},
		{"level of one outside", inner, "", 12, ""},
		{"two levels", levels, "", 0, "more than one dimension"},
		{"no time", flat, "", 1, ""},
		{"turned", turned, "", 0, "no variable whose last two dimensions"},
		{"turned and named", turned, "tavg", 0, "rearrange"},
		{"projected", projected, "", 0, "projected"},
		{"projected and named", projected, "tavg", 0, "projected"},
		{"coordinates by name and axis", byName, "", 12, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := open(c.m.build(), c.variable)
			if c.err != "" {
				if err == nil || !strings.Contains(err.Error(), c.err) {
					t.Errorf("error %v, want one with %q", err, c.err)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if f.Count() != c.count {
				t.Errorf("%d layers, want %d", f.Count(), c.count)
			}
			if got := values(t, f, c.count-1); got[8] != float64(100*(c.count-1)+11) {
				t.Errorf("%v", got)
			}
		})
	}
}
