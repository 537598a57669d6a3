package zonal

import (
	"cmp"
	"math"
	"slices"

	"weekband/grid/season"
)

// bins is a histogram of days that keeps only the bins that hold anything.
// Every entry has the week of a crossing beside the day that is counted, so
// that days about a crossing can be unwrapped with it at the end.
//
// When more than most bins hold something each two become one, up to whole
// days. How wide they are at the end hangs on all that was added, not on its
// order. None reaches into two days.
//
// It is a table of open addresses: a key lies at the first free place from its
// own on. Bins of neighbouring days have neighbouring places, and seldom meet
// others there.
type bins struct {
	level   int // bins are 2^level / 64 days wide
	most    int // entries before bins are widened
	n       int // entries
	keys    []uint32
	weights []uint64 // 0: the place is free
}

const (
	wholeDays = 6  // the level of bins of a day
	binBits   = 17 // of a key that tell the bin: 2048 days
	binMask   = 1<<binBits - 1
	binsFrom  = 1024 // days before 1 January that the first bin lies; no time of a season lies as far
	firstRoom = 16   // places
)

// keyOf puts a day and the week of its crossing in one number. Days that no
// season has count as the first or last that fit.
func keyOf(day float32, week season.Week) uint32 {
	bin := int((float64(day) + binsFrom) * (1 << wholeDays))
	if bin != bin&binMask {
		bin = min(max(bin, 0), binMask)
	}
	return uint32(int(week)<<binBits | bin)
}

// weekOfKey returns the week of a key.
func weekOfKey(key uint32) season.Week { return season.Week(key >> binBits) }

// widened returns a key of bins that are 2^by times as wide.
func widened(key uint32, by int) uint32 { return key&^binMask | key&binMask>>by }

// add counts weight, above 0, at a key.
func (b *bins) add(key uint32, weight uint64) {
	if b.keys == nil {
		b.resize(firstRoom)
	}
	if b.put(widened(key, b.level), weight) {
		return
	}
	if b.n++; b.n > b.most && b.level < wholeDays {
		b.widen()
	}
	if 4*b.n > 3*len(b.keys) {
		b.resize(2 * len(b.keys))
	}
}

// put adds weight at a key of the table's own level, and reports whether it was
// there before.
func (b *bins) put(key uint32, weight uint64) (before bool) {
	const apart = 89 // places from a bin to that of the same day about the next week
	keys := b.keys
	weights := b.weights[:len(keys)]
	mask := uint32(len(keys) - 1)
	for i := key + apart*(key>>binBits); ; i++ {
		i &= mask
		switch {
		case weights[i] == 0:
			keys[i], weights[i] = key, weight
			return false
		case keys[i] == key:
			weights[i] += weight
			return true
		}
	}
}

// resize moves all entries to a table of so many places, a power of 2.
func (b *bins) resize(places int) {
	keys, weights := b.keys, b.weights
	b.keys, b.weights, b.n = make([]uint32, places), make([]uint64, places), 0
	for i, w := range weights {
		if w != 0 && !b.put(keys[i], w) {
			b.n++
		}
	}
}

// widen makes bins twice as wide, and wider, until few enough hold anything.
func (b *bins) widen() {
	for b.n > b.most && b.level < wholeDays {
		b.level++
		for i, key := range b.keys {
			b.keys[i] = widened(key, 1)
		}
		b.resize(len(b.keys))
	}
}

// weeks returns the weight by the week of the crossing.
func (b *bins) weeks() (sum [season.Weeks + 1]uint64) {
	for i, w := range b.weights {
		sum[weekOfKey(b.keys[i])] += w
	}
	return sum
}

// unwrapped is a bin as days that are unwrapped at a cut.
type unwrapped struct {
	day    float64 // the middle of the bin
	weight uint64
}

// unwrap returns the bins in order: those of crossings before the cut, the
// beginning of a week, lie a year later.
func (b *bins) unwrap(cut season.Day) (list []unwrapped, total uint64) {
	wide := math.Ldexp(1, b.level-wholeDays)
	for i, w := range b.weights {
		if w == 0 {
			continue
		}
		u := unwrapped{day: float64((float64(b.keys[i]&binMask)+0.5)*wide) - binsFrom, weight: w}
		if weekOfKey(b.keys[i]).Begin() < cut {
			u.day += season.YearDays
		}
		list, total = append(list, u), total+w
	}
	slices.SortFunc(list, func(a, b unwrapped) int { return cmp.Compare(a.day, b.day) })
	return list, total
}

// quantiles returns, for every rising q, the middle of the bin that holds
// Quantiles' answer; ok is false when nothing was added.
func (b *bins) quantiles(cut season.Day, qs ...float64) (days []float64, ok bool) {
	list, total := b.unwrap(cut)
	if total == 0 {
		return nil, false
	}
	i, sum := 0, float64(list[0].weight)
	for _, q := range qs {
		target := float64(q * float64(total))
		for target -= float64(1e-9 * target); sum < target && i < len(list)-1; {
			i++
			sum += float64(list[i].weight)
		}
		days = append(days, list[i].day)
	}
	return days, true
}
