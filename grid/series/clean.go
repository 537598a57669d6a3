package series

// Clean checks every station by the rules and takes single values out that
// cannot be right: stuck runs, spikes and values out of range. It changes the
// network and returns a report for each station, in the order of the list. A
// station is never removed: Report.Usable tells which sensors are fit for a
// typical year.
//
// Series of months are checked for coverage, range and units only.
func (n *Network) Clean(rules Rules) []Report {
	rules = rules.orDefault()
	out := make([]Report, len(n.List))
	for i := range n.List {
		c := check{s: &n.List[i], rules: rules, cal: n.List[i].calendar()}
		c.report = Report{ID: c.s.ID, depths: n.Depths}
		c.run()
		out[i] = c.report
	}
	return out
}

// check is the work on one station.
type check struct {
	s      *Station
	rules  Rules
	cal    calendar
	report Report
}

func (c *check) run() {
	c.ranges(Air, &c.s.Air)
	c.unit(Air, &c.s.Air)
	for k := range c.s.Soil {
		c.ranges(k, &c.s.Soil[k])
		c.unit(k, &c.s.Soil[k])
	}
	if !c.s.Monthly {
		c.daily()
	}
	for k := range c.s.Soil {
		c.coverage(k)
	}
}

// daily applies the rules for days. Columns are compared before values are
// taken out; the step comes last, so that no spike makes one.
func (c *check) daily() {
	c.columns()
	c.stuck(Air, &c.s.Air)
	for k := range c.s.Soil {
		v := &c.s.Soil[k]
		c.stuck(k, v)
		if c.report.Usable(k) {
			c.spikes(k, v) // a confused column is full of them
		}
	}
	lagged := c.s.laggedAir()
	for k := range c.s.Soil {
		c.step(k, lagged)
	}
}

// note adds a finding about elements from to to, both included.
func (c *check) note(kind Kind, act Act, sensor, from, to, days int, size float64) {
	c.report.Findings = append(c.report.Findings, Finding{Kind: kind, Act: act, Sensor: sensor, From: c.s.Date(from), To: c.s.Date(to), Days: days, Size: size})
}

// setAside adds a finding and takes its values out.
func (c *check) setAside(kind Kind, sensor int, v *Values, from, to int, size float64) {
	c.note(kind, SetAside, sensor, from, to, to-from+1, size)
	v.drop(from, to)
}

// ranges takes values out that no ground or air has.
func (c *check) ranges(sensor int, v *Values) {
	low, high := float32(minSoil), float32(maxSoil)
	if sensor == Air {
		low, high = coldest, maxAir
	}
	for i, ok := range v.Has {
		if t := v.Vals[i]; ok && (t < low || t > high) {
			c.setAside(Range, sensor, v, i, i, float64(t))
		}
	}
}

// unit refuses series that are too warm all year, and soil far warmer than
// air.
func (c *check) unit(sensor int, v *Values) {
	var sum, n, apart, pairs float64
	for i, ok := range v.Has {
		if !ok {
			continue
		}
		sum += float64(v.Vals[i])
		n++
		if c.s.Air.Has[i] {
			apart += float64(v.Vals[i] - c.s.Air.Vals[i])
			pairs++
		}
	}
	if n > 0 && (sum/n > hottestMean || apart > warmerSoil*pairs) {
		c.note(Unit, Refused, sensor, 0, len(v.Has)-1, int(n), sum/n)
	}
}

// stuck takes runs of equal values out. Soil near 0 °C may stand still, which
// is only counted.
func (c *check) stuck(sensor int, v *Values) {
	days, first, last := 0, 0, 0
	limit := c.rules.StuckDays
	if sensor != Air && c.report.depths[sensor] > shallow {
		limit *= 3
	}
	for from := 0; from < len(v.Has); {
		to := from
		for to+1 < len(v.Has) && v.Has[from] && v.Has[to+1] && v.Vals[to+1] == v.Vals[from] {
			to++
		}
		n, t := to-from+1, v.Vals[from]
		switch still := sensor != Air && t >= -frost && t <= frost; {
		case still && n >= plateauDays:
			if days == 0 {
				first = from
			}
			days, last = days+n, to
		case !still && n >= limit && v.Has[from]:
			c.setAside(Stuck, sensor, v, from, to, float64(t))
		}
		from = to + 1
	}
	if days > 0 {
		c.note(Plateau, Noted, sensor, first, last, days, 0)
	}
}

// spikes takes single days of soil out that stand out from both neighbours on
// one side by more than air does.
func (c *check) spikes(sensor int, v *Values) {
	air := &c.s.Air
	for i := 1; i+1 < len(v.Has); i++ {
		out, ok := standsOut(v, i)
		if !ok || out > -float64(c.rules.Spike) && out < float64(c.rules.Spike) {
			continue
		}
		cause, ok := standsOut(air, i)
		if !ok {
			continue // a cloudburst cools the ground for a day
		}
		if cause*out > 0 {
			out -= cause
		}
		if max(out, -out) >= float64(c.rules.Spike) {
			c.setAside(Spike, sensor, v, i, i, out)
		}
	}
}

// standsOut returns by how much a value lies above both its neighbours, or
// below both (negative); 0 in between. ok is false when one is missing.
func standsOut(v *Values, i int) (by float64, ok bool) {
	if !v.Has[i-1] || !v.Has[i] || !v.Has[i+1] {
		return 0, false
	}
	a, b := float64(v.Vals[i]-v.Vals[i-1]), float64(v.Vals[i]-v.Vals[i+1])
	if a > 0 && b > 0 {
		return min(a, b), true
	}
	if a < 0 && b < 0 {
		return max(a, b), true
	}
	return 0, true
}
