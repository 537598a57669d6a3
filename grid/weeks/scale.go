package weeks

import (
	"maps"
	"math"
	"slices"

	"weekband/grid"
	"weekband/grid/season"
)

// MaxScale is how many bands a Scale holds, so that neighbours keep apart.
const MaxScale = 18

// Scale returns one sequence of bands for several maps of a window, so that a
// week looks the same on all of them: the field's own bands, of the narrowest
// width with which all fit into MaxScale, and as many of that width before and
// after them as the other days need. others are days of the field's cells,
// unwrapped like its own, such as those of EarlyLate. At either end a map's open
// band holds at most 2 % of its ground besides its own weeks, unless even bands
// of four weeks are too many. No crossing gives no bands.
func (f *Field) Scale(others ...*grid.Raster[float32]) []Band {
	for width := 1; ; width++ {
		bands, fit := f.bandsOf(width)
		if len(bands) == 0 {
			return nil
		}
		if !fit && width < widest {
			continue
		}
		bands = extended(bands, width, others)
		if len(bands) <= MaxScale || width == widest {
			return opened(narrowed(bands, others), append(others, f.Day))
		}
	}
}

// extended adds bands of a number of weeks until all but the tails of the
// days lie within.
func extended(bands []Band, width int, days []*grid.Raster[float32]) []Band {
	for _, r := range days {
		lo, hi, any := within(r)
		for any && lo < bands[0].From {
			bands = slices.Insert(bands, 0, before(bands[0], width))
		}
		for any && hi >= bands[len(bands)-1].To {
			bands = append(bands, after(bands[len(bands)-1], width))
		}
	}
	return bands
}

func before(b Band, width int) Band {
	out := Band{From: b.From, To: b.From}
	week := b.From.In().Week()
	for range width {
		week, out.From = previous(week, out.From)
	}
	return out
}

func after(b Band, width int) Band {
	out := Band{From: b.To, To: b.To}
	week := b.To.In().Week()
	for range width {
		week, out.To = following(week, out.To)
	}
	return out
}

// within returns the days, to a day, between the tails of a raster.
func within(r *grid.Raster[float32]) (lo, hi season.Day, any bool) {
	byDay, total := map[int]float64{}, 0.0
	for day, area := range r.Areas() {
		byDay[int(math.Floor(float64(day)))] += area
		total += area
	}
	order := slices.Sorted(maps.Keys(byDay))
	if len(order) == 0 {
		return 0, 0, false
	}
	i, k := 0, len(order)-1
	for sum := byDay[order[i]]; sum <= tail*total; sum += byDay[order[i]] {
		i++
	}
	for sum := byDay[order[k]]; sum <= tail*total; sum += byDay[order[k]] {
		k--
	}
	return season.Day(order[i]), season.Day(order[k]), true
}

// narrowed leaves bands out until MaxScale are left, each time at the end that
// holds less ground.
func narrowed(bands []Band, days []*grid.Raster[float32]) []Band {
	km2 := make([]float64, len(bands))
	for _, r := range days {
		for i, area := range BandAreas(bands, r) {
			km2[i] += area
		}
	}
	for len(bands) > MaxScale {
		if last := len(bands) - 1; km2[last] < km2[0] {
			km2[last-1] += km2[last]
			bands, km2 = bands[:last], km2[:last]
		} else {
			km2[1] += km2[0]
			bands, km2 = bands[1:], km2[1:]
		}
	}
	return bands
}

// opened opens the ends beyond which there are days.
func opened(bands []Band, days []*grid.Raster[float32]) []Band {
	for i := range bands {
		bands[i].OpenBegin, bands[i].OpenEnd = false, false
	}
	first, last := &bands[0], &bands[len(bands)-1]
	for _, r := range days {
		for _, day := range r.All() {
			first.OpenBegin = first.OpenBegin || season.Day(day) < first.From
			last.OpenEnd = last.OpenEnd || season.Day(day) >= last.To
		}
	}
	return bands
}

// hair is the share of a map's ground that Shown may leave to an open band
// besides its own weeks, at either end.
const hair = 0.005

// Shown returns the bands of a scale that one map needs, and how many the
// scale has before them: from the first that holds ground to the last. Ends
// are open to what lies beyond, at most half a percent of the ground beyond
// those of the scale. Without any ground there are none.
func Shown(scale []Band, days *grid.Raster[float32]) (bands []Band, before int) {
	km2 := BandAreas(scale, days)
	total := 0.0
	for _, area := range km2 {
		total += area
	}
	if total == 0 {
		return nil, 0
	}
	from, to := 0, len(scale)
	for sum := km2[from]; sum <= hair*total; sum += km2[from] {
		from++
	}
	for sum := km2[to-1]; sum <= hair*total; sum += km2[to-1] {
		to--
	}
	bands = slices.Clone(scale[from:to])
	for _, area := range km2[:from] {
		bands[0].OpenBegin = bands[0].OpenBegin || area > 0
	}
	for _, area := range km2[to:] {
		bands[len(bands)-1].OpenEnd = bands[len(bands)-1].OpenEnd || area > 0
	}
	return bands, from
}
