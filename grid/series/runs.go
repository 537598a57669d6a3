package series

// runEnd returns the first element in [from, to) at which past has held for n
// elements in a row, the run's first at or after from; ok is false without
// one.
func runEnd(past func(i int) bool, from, to, n int) (end int, ok bool) {
	run := 0
	for i := from; i < to; i++ {
		if run++; !past(i) {
			run = 0
		}
		if run == n {
			return i, true
		}
	}
	return 0, false
}

// bridged returns a series with gaps of up to n elements filled by straight
// lines.
func bridged(v *Values, n int) Values {
	out := Values{Vals: append([]float32(nil), v.Vals...), Has: append([]bool(nil), v.Has...)}
	last := -1
	for i, ok := range v.Has {
		if !ok {
			continue
		}
		if gap := i - last - 1; last >= 0 && gap > 0 && gap <= n {
			a, b := v.Vals[last], v.Vals[i]
			for j := 1; j <= gap; j++ {
				out.Vals[last+j], out.Has[last+j] = a+(b-a)*float32(j)/float32(gap+1), true
			}
		}
		last = i
	}
	return out
}

// trailing returns the means over n elements up to and including each; absent
// where one of them is.
func trailing(v *Values, n int) Values {
	out := newValues(len(v.Has))
	sum, run := 0.0, 0
	for i, ok := range v.Has {
		if !ok {
			sum, run = 0, 0
			continue
		}
		sum += float64(v.Vals[i])
		if run++; run > n {
			sum -= float64(v.Vals[i-n])
		}
		if run >= n {
			out.Vals[i], out.Has[i] = float32(sum/float64(n)), true
		}
	}
	return out
}
