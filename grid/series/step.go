package series

import (
	"math"

	"weekband/grid/soil"
)

// laggedAir returns air as soil feels it: the part below 0 °C shrunk and the
// whole lagged, as soil.Default does to a typical year. After a gap of more
// than five days it starts anew, and is absent until the start is forgotten.
func (s *Station) laggedAir() Values {
	out := newValues(s.Len())
	keep := math.Exp(-1 / soil.DefaultLag)
	warmUp := int(3 * soil.DefaultLag)
	y, seen, missing := 0.0, 0, 0
	for i, ok := range s.Air.Has {
		if ok {
			x := float64(s.Air.Vals[i])
			if x < 0 {
				x *= soil.DefaultFrozen
			}
			if seen == 0 {
				y = x
			}
			y = x + float64((y-x)*keep)
			seen, missing = seen+1, 0
		} else if missing++; missing > 5 {
			seen = 0
		}
		if seen > warmUp {
			out.Vals[i], out.Has[i] = float32(y), true
		}
	}
	return out
}

// step looks for a lasting change of soil less lagged air: the cut between
// months whose means before and after differ most, in standard errors. Months
// follow each other alike, which lowers the number of independent ones.
func (c *check) step(k int, lagged Values) {
	at, size, errors := bestCut(c.s.anomalies(&c.s.Soil[k], &lagged, &c.cal))
	if math.Abs(size) < float64(c.rules.Step) || math.Abs(errors) < stepErrors {
		return
	}
	act := Noted
	if math.Abs(size) >= float64(grossStep) {
		act = Refused
	}
	c.note(Step, act, k, 0, at-1, c.s.Soil[k].Count(), size)
}

// anomaly is the mean of soil less lagged air in a month, less what is usual
// in that calendar month; from is its first element.
type anomaly struct {
	from  int
	value float64
}

// anomalies returns those of the complete months, in order.
func (s *Station) anomalies(soil, lagged *Values, cal *calendar) []anomaly {
	pair := make([]bool, s.Len())
	for i := range pair {
		pair[i] = soil.Has[i] && lagged.Has[i]
	}
	var out []anomaly
	var month []int
	var sum, n [12]float64
	for _, m := range s.months(pair, cal) {
		if !m.complete {
			continue
		}
		total, days := 0.0, 0.0
		for i := m.from; i < m.to; i++ {
			if pair[i] {
				total += float64(soil.Vals[i] - lagged.Vals[i])
				days++
			}
		}
		out, month = append(out, anomaly{m.from, total / days}), append(month, m.month)
		sum[m.month] += total / days
		n[m.month]++
	}
	for i := range out {
		out[i].value -= sum[month[i]] / n[month[i]]
	}
	return out
}

// bestCut returns the element at which the later of two parts begins, the
// change from the first to the second, and the change in standard errors. All
// are 0 when the series is too short.
func bestCut(a []anomaly) (at int, size, errors float64) {
	best := 0
	for cut := stepMonths; cut <= len(a)-stepMonths; cut++ {
		if d, e := change(a, cut); math.Abs(e) > math.Abs(errors) {
			best, size, errors = cut, d, e
		}
	}
	if best == 0 {
		return 0, 0, 0
	}
	return a[best].from, size, errors
}

// change returns the difference of the means after and before a cut, and the
// same in standard errors.
func change(a []anomaly, cut int) (size, errors float64) {
	before, after := mean(a[:cut]), mean(a[cut:])
	var square, product, last float64
	for i, v := range a {
		r := v.value - before
		if i >= cut {
			r = v.value - after
		}
		square += float64(r * r)
		if i > 0 && i != cut {
			product += float64(r * last)
		}
		last = r
	}
	if square == 0 {
		return after - before, math.Copysign(math.MaxFloat64, after-before)
	}
	// The variance of a mean of months that follow a first-order process.
	alike := min(max(product/square, 0), 0.95)
	n := float64(len(a))
	variance := square / (n - 2) * (1/float64(cut) + 1/(n-float64(cut))) * (1 + alike) / (1 - alike)
	return after - before, (after - before) / math.Sqrt(variance)
}

func mean(a []anomaly) float64 {
	sum := 0.0
	for _, v := range a {
		sum += v.value
	}
	return sum / float64(len(a))
}
