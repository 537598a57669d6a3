package main

import (
	"compress/gzip"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"

	"weekband/grid"
	"weekband/grid/series"
)

// station is a field station that measures air and soil side by side.
type station struct {
	id, name string
	at       grid.LonLat
	height   float64 // m
	ground           // the truth
	days
	has [3][]bool // air, shallow, deep
}

// theStations are spread over the climates of the land.
var theStations = []struct {
	name string
	at   plan
}{
	{"Skarrow Heath", plan{2.0, 8.3}},
	{"Coldbarrow", plan{4.3, 8.1}},
	{"Brethcombe", plan{6.9, 8.4}},
	{"Easter Fold", plan{8.5, 7.8}},
	{"Vennet Top", plan{7.2, 7.2}},
	{"Tavemoor", plan{1.9, 6.4}},
	{"Harrastone", plan{4.9, 7.2}},
	{"Orrenlea", plan{3.4, 5.9}},
	{"Sellow Farthing", plan{5.0, 5.6}},
	{"Stonyarrow", plan{6.3, 6.1}},
	{"Wendrow Bield", plan{8.5, 5.5}},
	{"Quenhollow", plan{3.0, 4.0}},
	{"Ossen Mead", plan{5.2, 4.3}},
	{"Lindbrow", plan{6.8, 4.2}},
	{"Downstead", plan{3.8, 3.2}},
	{"Sarnfield", plan{6.0, 2.5}},
	{"Sôlmarsh", plan{7.2, 1.2}},
	{"Gannay Head", plan{1.4, 2.0}},
	{"Pellaray Links", plan{9.5, 2.7}},
	{"Marsay Warren", plan{3.6, 1.0}},
}

// network measures at every station over all years of the weather.
func network(l *land, c climate, w *weather, dry func(grid.LonLat) bool) []station {
	var all []station
	for k, where := range theStations {
		st := station{id: fmt.Sprintf("GS%02d", k+1), name: where.name, at: l.landing(where.at, dry)}
		st.height = max(round(l.height.sample(st.at), 0), 1)
		s := c.site(st.at, st.height)
		chance := rand.New(rand.NewPCG(uint64(siteSeed), uint64(k)))
		st.ground = groundAt(planOf(s.at), s.coldest(), 1, chance)
		st.days = w.measure(s, st.ground, chance)
		st.lose(chance)
		all = append(all, st)
	}
	return all
}

// landing returns the position nearest to p that is dry.
func (l *land) landing(p plan, dry func(grid.LonLat) bool) grid.LonLat {
	best, far := grid.LonLat{}, math.Inf(1)
	for i := range l.height.v {
		at := center(l.height.g, i)
		q := planOf(at)
		if d := hypot(p.x-q.x, p.y-q.y); d < far && !l.isSea(i) && dry(at) {
			best, far = at, d
		}
	}
	return grid.LonLat{Lon: round(best.Lon, 4), Lat: round(best.Lat, 4)}
}

// What fails at a station: each sensor a few times for some days, and the
// whole station once for some weeks. Every calendar month is then complete in four
// years of five, which the check of series wants.
const (
	lapses      = 3 // of each sensor
	lapseDays   = 4 // at most
	outageDays  = 24
	outageLeast = 8
)

// lose takes out what was not measured.
func (st *station) lose(chance *rand.Rand) {
	n := len(st.air)
	for k := range st.has {
		st.has[k] = slices.Repeat([]bool{true}, n)
		for range lapses {
			from := chance.IntN(n - lapseDays)
			clear(st.has[k][from : from+1+chance.IntN(lapseDays)])
		}
	}
	from, length := chance.IntN(n-outageDays), outageLeast+chance.IntN(outageDays-outageLeast+1)
	for k := range st.has {
		clear(st.has[k][from : from+length])
	}
}

// writeStations writes one line for each station.
func writeStations(w io.Writer, all []station) error {
	lines := [][]string{{"id", "name", "lat", "lon", "elev_m"}}
	for _, st := range all {
		lines = append(lines, []string{st.id, st.name, degrees(st.at.Lat), degrees(st.at.Lon), strconv.FormatFloat(st.height, 'f', 0, 64)})
	}
	return csv.NewWriter(w).WriteAll(lines)
}

// writeDays writes one line for each station and day with anything measured,
// gzipped.
func writeDays(w io.Writer, all []station, dates []series.Date) error {
	zip, err := gzip.NewWriterLevel(w, gzip.BestCompression)
	if err != nil {
		return err
	}
	lines := [][]string{{"id", "date", "air_c", "soil5_c", "soil10_c"}}
	for _, st := range all {
		for i, date := range dates {
			line := []string{st.id, date.String(), "", "", ""}
			for k, v := range [][]float64{st.air, st.shallow, st.deep} {
				if st.has[k][i] {
					line[2+k] = tenths(v[i])
				}
			}
			if line[2] != "" || line[3] != "" || line[4] != "" {
				lines = append(lines, line)
			}
		}
	}
	if err := csv.NewWriter(zip).WriteAll(lines); err != nil {
		return err
	}
	return zip.Close()
}

func degrees(v float64) string { return strconv.FormatFloat(v, 'f', 4, 64) }

// tenths writes a temperature with one decimal, zero without a sign.
func tenths(v float64) string { return strconv.FormatFloat(round(v, 1)+0, 'f', 1, 64) }
