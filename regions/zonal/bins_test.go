package zonal

import (
	"math"
	"math/rand"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"weekband/grid/season"
)

// Whatever the order, the bins are the same; a quantile lies in the bin of the
// exact one, on the same day, with days about a crossing moved with it.
func TestBinsAgainstSorting(t *testing.T) {
	type value struct {
		day  float32 // some days from its crossing
		week season.Week
		w    uint64
	}
	rapid.Check(t, func(rt *rapid.T) {
		r := rand.New(rand.NewSource(rapid.Int64().Draw(rt, "seed")))
		spread := math.Pow(10, 3*r.Float64()-1) // 0.1 to 100 days
		middle := 1 + 365*r.Float64()
		values := make([]value, 1+r.Intn(3000))
		for i := range values {
			day := season.Day(middle + spread*r.NormFloat64()).In()
			values[i] = value{float32(day) + float32(r.Intn(60)-30), day.Week(), 1 + uint64(r.Intn(1e6))}
		}
		most := []int{20, 192, 768}[r.Intn(3)]
		fill := func(order []int) *bins {
			b := &bins{most: most}
			for _, i := range order {
				b.add(keyOf(values[i].day, values[i].week), values[i].w)
			}
			return b
		}
		one, other := fill(r.Perm(len(values))), fill(r.Perm(len(values)))
		for _, cut := range []season.Day{1, season.Week(1 + r.Intn(52)).Begin()} {
			list, total := one.unwrap(cut)
			if again, _ := other.unwrap(cut); len(again) != len(list) || one.level != other.level {
				rt.Fatalf("another order gives %d bins of level %d, want %d of %d", len(again), other.level, len(list), one.level)
			}
			qs := []float64{0, 0.1, 0.5, 0.9, 1}
			got, _ := one.quantiles(cut, qs...)
			if again, _ := other.quantiles(cut, qs...); !slices.Equal(got, again) {
				rt.Fatalf("another order gives %v, want %v", again, got)
			}
			moved := slices.Clone(values)
			for i := range moved {
				if moved[i].week.Begin() < cut {
					moved[i].day += season.YearDays
				}
			}
			slices.SortFunc(moved, func(a, b value) int { return int(math.Copysign(1, float64(a.day-b.day))) })
			for k, q := range qs {
				i, sum := 0, float64(moved[0].w)
				for ; sum < q*float64(total)*(1-1e-9); i++ {
					sum += float64(moved[i+1].w)
				}
				want, half := float64(moved[i].day), math.Ldexp(0.5, one.level-wholeDays)
				if math.Abs(got[k]-want) > half || math.Floor(got[k]) != math.Floor(want) {
					rt.Fatalf("quantile %v is %v, want %v to %v and on the same day", q, got[k], want, half)
				}
			}
		}
	})
}

// Days so far apart as those of Sums are kept to half a bin as it says, and
// nothing is nothing.
func TestBinsAreAsWideAsTold(t *testing.T) {
	for _, c := range []struct {
		days float64 // apart
		wide float64
	}{{11.9, 1. / 64}, {23.9, 1. / 32}, {47.9, 1. / 16}, {364.9, 0.5}} {
		b := bins{most: mostDays}
		for day := 1.0; day < 1+c.days; day += 1. / 128 {
			b.add(keyOf(float32(day), season.Day(day).Week()), 1)
		}
		if got := math.Ldexp(1, b.level-wholeDays); got != c.wide || len(b.keys) > 1024 {
			t.Errorf("%v days: bins of %v days in %d places, want %v", c.days, got, len(b.keys), c.wide)
		}
	}
	var none bins
	if days, ok := none.quantiles(1, 0.5); ok || days != nil {
		t.Errorf("nothing has quantiles %v", days)
	}
}
