package weeks

import (
	"weekband/grid"
	"weekband/grid/season"
)

// Band is a run of whole weeks that one colour stands for, half-open: crossing
// days in [From, To). The days are unwrapped like those of the Field. An open
// end holds everything before or after.
type Band struct {
	From, To           season.Day
	OpenBegin, OpenEnd bool
}

// Label writes the band's dates: "Mar 12–18", "before Feb 5", "Jun 11 or later".
func (b Band) Label() string {
	switch {
	case b.OpenBegin && b.OpenEnd:
		return "all year"
	case b.OpenBegin:
		return "before " + b.To.String()
	case b.OpenEnd:
		return b.From.String() + " or later"
	}
	return season.Span(b.From, b.To)
}

// MaxBands is how many bands a legend holds and stays readable.
const MaxBands = 12

// tail is the share of the dated area, at either end of the season, that an
// open band may hold so that the others can be narrower.
const tail = 0.02

// Bands sorts the weeks of the field's crossings into at most MaxBands bands
// of 1, 2, 3 or 4 weeks, the narrowest width that fits. The bands are sorted,
// leave no gap and hold every crossing; the first and the last may be open,
// each with at most 2 % of the dated area besides their own weeks. No
// crossing gives no bands.
func (f *Field) Bands() []Band {
	for width := 1; ; width++ {
		if bands, fit := f.bandsOf(width); fit || width == widest {
			return bands
		}
	}
}

// widest is the width of the widest bands in weeks.
const widest = 4

// bandsOf sorts the weeks into bands of a number of weeks, and reports whether
// they are at most MaxBands.
func (f *Field) bandsOf(width int) (bands []Band, fit bool) {
	order, total := f.inOrder()
	first, last := 0, len(order)-1
	for first <= last && order[first].km2 == 0 {
		first++
	}
	for last >= first && order[last].km2 == 0 {
		last--
	}
	if first > last {
		return nil, true
	}
	lo, hi := trim(order, first, last, total*tail)
	for at := lo; at <= hi; at += width {
		end := min(at+width, len(order))
		bands = append(bands, Band{From: order[at].begin, To: order[end-1].end})
	}
	bands[0].OpenBegin = first < lo
	final := &bands[len(bands)-1]
	final.OpenEnd = order[last].begin >= final.To
	return bands, len(bands) <= MaxBands
}

// Breaks returns the inner borders of bands: bands[i+1].From.
func Breaks(bands []Band) []float64 {
	var breaks []float64
	for _, b := range bands[min(1, len(bands)):] {
		breaks = append(breaks, float64(b.From))
	}
	return breaks
}

// BandOf returns the index of the band that holds a day, unwrapped like
// those of the Field. It panics when there are no bands.
func BandOf(bands []Band, day season.Day) int {
	i := len(bands) - 1
	for i > 0 && day < bands[i].From {
		i--
	}
	return i
}

// weekArea is one week of the unwrapped year and the area that crosses in it.
type weekArea struct {
	begin, end season.Day
	km2        float64
}

// inOrder returns the 52 weeks from the cut on, and the total area.
func (f *Field) inOrder() (order []weekArea, total float64) {
	km2 := f.Histogram()
	w := f.Cut.Week()
	shift := season.Day(0)
	for range season.Weeks {
		order = append(order, weekArea{begin: w.Begin() + shift, end: w.End() + shift, km2: km2[w]})
		total += km2[w]
		if w == season.Weeks {
			shift = season.YearDays
		}
		w = w.Next()
	}
	return order, total
}

// trim moves first and last inward past weeks that together hold at most
// spare km² on their side.
func trim(order []weekArea, first, last int, spare float64) (lo, hi int) {
	lo, hi = first, last
	for sum := order[lo].km2; lo < hi && sum <= spare; sum += order[lo].km2 {
		lo++
	}
	for sum := order[hi].km2; hi > lo && sum <= spare; sum += order[hi].km2 {
		hi--
	}
	return lo, hi
}

// BandAreas returns the area in km² that crosses in each of the field's
// bands.
func (f *Field) BandAreas(bands []Band) []float64 { return BandAreas(bands, f.Day) }

// BandAreas returns the area in km² of the cells whose day lies in each band.
func BandAreas(bands []Band, days *grid.Raster[float32]) []float64 {
	km2 := make([]float64, len(bands))
	for day, area := range days.Areas() {
		km2[BandOf(bands, season.Day(day))] += area
	}
	return km2
}
