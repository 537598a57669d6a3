package calibration

import (
	"fmt"
	"math"
	"slices"

	"weekband/grid/curve"
	"weekband/grid/series"
	"weekband/grid/soil"
	"weekband/grid/units"
)

// Truth is what a station measured, as typical years of the days on which
// both sensors were there.
type Truth struct {
	Station
	Air      curve.Year
	Soil     []curve.Year    // by depth, as the network's Depths
	HasSoil  []bool          // by depth
	series   *series.Station // for its single years
	soilFits []curve.Curve
}

// Learn fits the offset of every station of a network whose sensors passed the
// check: reports are those of Network.Clean, in the order of the list. The
// sensor nearest to soil.OffsetDepth is taken, and brought to that depth by
// conduction. skipped names the stations left out, and why. It returns an
// error when the network has no soil sensor.
func Learn(n *series.Network, reports []series.Report) (learned []Truth, skipped []string, err error) {
	depth, err := nearest(n.Depths)
	if err != nil {
		return nil, nil, err
	}
	for i := range n.List {
		st := &n.List[i]
		if !reports[i].Usable(depth) {
			skipped = append(skipped, fmt.Sprintf("%s %s: its series did not pass the check", st.ID, st.Name))
			continue
		}
		t, ok := learn(st, n.Depths, depth)
		if !ok {
			skipped = append(skipped, fmt.Sprintf("%s %s: a calendar month has no day with both air and soil", st.ID, st.Name))
			continue
		}
		for k := range t.HasSoil {
			t.HasSoil[k] = t.HasSoil[k] && reports[i].Usable(k)
		}
		learned = append(learned, t)
	}
	return learned, skipped, nil
}

// nearest returns the index of the depth nearest to soil.OffsetDepth.
func nearest(depths []units.Metres) (int, error) {
	if len(depths) == 0 {
		return 0, fmt.Errorf("the series hold no soil sensor; want a column such as soil10_c")
	}
	best := 0
	for i, d := range depths {
		if math.Abs(float64(d-soil.OffsetDepth)) < math.Abs(float64(depths[best]-soil.OffsetDepth)) {
			best = i
		}
	}
	return best, nil
}

func learn(st *series.Station, depths []units.Metres, depth int) (t Truth, ok bool) {
	t.series = st
	var normal series.Normal // with the sensor the offset is learned from
	t.Soil, t.HasSoil, t.soilFits = make([]curve.Year, len(depths)), make([]bool, len(depths)), make([]curve.Curve, len(depths))
	for k := range depths {
		var n series.Normal
		if n, t.HasSoil[k] = st.Normal(k, 0); t.HasSoil[k] {
			n.Soil.Sample(&t.Soil[k])
			t.soilFits[k] = n.Soil
		}
		if k == depth {
			normal = n
		}
	}
	if !t.HasSoil[depth] {
		return t, false
	}
	normal.Air.Sample(&t.Air)
	perYear := 365.25
	if st.Monthly {
		perYear = 12
	}
	to := soil.NewConduction(depths[depth], soil.OffsetDepth, soil.DefaultDiffusivity)
	t.Station = Station{
		ID: st.ID, Name: st.Name, At: st.At, Elevation: st.Elevation,
		Coldest: ColdestOf(&t.Air), Years: float64(normal.Pairs) / perYear,
	}
	ground := t.Soil[depth]
	to.Apply(&ground)
	t.Offset, t.Residual = offsetOf(&t.Air, &ground)
	t.StdErr = jackknife(st, depth, &to)
	return t, true
}

// jackknife returns the standard errors of an offset's coefficients from the
// offsets with each calendar year left out in turn (Tukey 1958):
// √((n−1)/n·Σ(cᵢ − c̄)²). They are 0 for fewer than three years.
func jackknife(st *series.Station, depth int, to *soil.Conduction) soil.Offset {
	var all []coefficients
	first, _, _ := st.First.YMD()
	last, _, _ := st.Date(st.Len() - 1).YMD()
	air := st.Air.Has
	part := *st
	for year := first; year <= last; year++ {
		part.Air.Has = slices.Clone(air)
		any := false
		for i, ok := range air {
			if y, _, _ := st.Date(i).YMD(); ok && y == year {
				part.Air.Has[i], any = false, true
			}
		}
		if !any {
			continue
		}
		if n, ok := part.Normal(depth, 0); ok {
			var a, g curve.Year
			n.Air.Sample(&a)
			n.Soil.Sample(&g)
			to.Apply(&g)
			o, _ := offsetOf(&a, &g)
			all = append(all, coefficientsOf(o))
		}
	}
	return spreadOf(all)
}

func spreadOf(all []coefficients) soil.Offset {
	var mean, square coefficients
	n := float64(len(all))
	if n < 3 {
		return soil.Offset{}
	}
	for _, c := range all {
		for k, v := range c {
			mean[k] += v / n
		}
	}
	for _, c := range all {
		for k, v := range c {
			square[k] += float64((v - mean[k]) * (v - mean[k]))
		}
	}
	for k := range square {
		square[k] = math.Sqrt((n - 1) / n * square[k])
	}
	return square.offset()
}

// Table returns the stations of what was learned, for Encode and New.
func Table(learned []Truth) []Station {
	var list []Station
	for i := range learned {
		list = append(list, learned[i].Station)
	}
	return list
}
