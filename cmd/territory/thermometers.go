package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"math/rand/v2"
	"strconv"
	"time"

	"weekband/grid/series"
	"weekband/grid/units"
)

// Readers push a thermometer into the ground every few days of spring.
const (
	readerChance = 1.25 // times the chance of a station's site: 0.9 K in spring
	readingError = 0.5  // K, of the thermometer and the hour
	readFrom     = time.February
	readTo       = time.June
	readEvery    = 3   // days at least
	readWithin   = 7   // days more at most
	hardest      = 0.5 // °C; frozen ground lets no thermometer in
)

// reader is somebody with a thermometer in the ground of a town.
type reader struct {
	town     string
	from, to int // years
	scale    units.Scale
	finest   float64 // step of the thermometer, in its scale
	depth    string  // as they write it; "" for 4 in
}

var theReaders = []reader{
	{"Aldrameet", 2021, 2024, units.F, 1, "4 in"},
	{"Sellowmouth", 2021, 2024, units.F, 0.1, "4 in"},
	{"Fallowhaven", 2022, 2024, units.C, 0.1, "4 in"},
	{"Quennamouth", 2020, 2021, units.F, 1, ""},
	{"Kellowhaven", 2021, 2023, units.F, 0.5, "4 in"},
	{"Esselmouth", 2022, 2023, units.C, 0.5, "10 cm"},
	{"Hollinmere", 2022, 2024, units.F, 1, "2 in"},
	{"Corrahaven", 2023, 2024, units.C, 0.1, "4 in"},
	{"Hathelby", 2020, 2022, units.F, 1, ""},
	{"Marrowick", 2022, 2023, units.F, 0.1, "2 in"},
	{"Wintersgap", 2023, 2024, units.C, 0.5, "4 in"},
	{"Ettamouth", 2022, 2022, units.F, 1, "4 in"},
	{"Brinewick", 2021, 2022, units.F, 1, ""},
}

// writeReadings writes one line for each look at a thermometer.
func writeReadings(out io.Writer, l *land, c climate, w *weather, places []place) error {
	lines := [][]string{{"place", "lat", "lon", "date", "soil", "depth"}}
	for k, r := range theReaders {
		town, err := find(places, r.town)
		if err != nil {
			return err
		}
		s := c.site(town.at, max(round(l.height.sample(town.at), 0), 1))
		chance := rand.New(rand.NewPCG(uint64(siteSeed)+1, uint64(k)))
		d := w.measure(s, groundAt(planOf(s.at), s.coldest(), readerChance, chance), chance)
		soil := d.deep
		if r.depth == "2 in" {
			soil = d.shallow
		}
		for _, i := range r.looks(w.dates, chance) {
			if soil[i] < hardest {
				continue
			}
			shown := r.shows(units.Celsius(soil[i] + readingError*chance.NormFloat64()))
			lines = append(lines, []string{town.name, degrees(town.at.Lat), degrees(town.at.Lon), w.dates[i].String(), shown, r.depth})
		}
	}
	return csv.NewWriter(out).WriteAll(lines)
}

func find(places []place, name string) (place, error) {
	for _, p := range places {
		if p.name == name {
			return p, nil
		}
	}
	return place{}, fmt.Errorf("no place is called %s; give the thermometer to another town", name)
}

// looks returns the elements of dates on which a reader looks.
func (r reader) looks(dates []series.Date, chance *rand.Rand) []int {
	var all []int
	next := 0
	for i, d := range dates {
		year, month, _ := d.YMD()
		if i < next || year < r.from || year > r.to || month < readFrom || month > readTo {
			continue
		}
		all = append(all, i)
		next = i + readEvery + chance.IntN(readWithin+1)
	}
	return all
}

// shows returns what a reader writes down.
func (r reader) shows(t units.Celsius) string {
	v := float64(t)
	if r.scale == units.F {
		v = t.Fahrenheit()
	}
	decimals := 1
	if r.finest == 1 {
		decimals = 0
	}
	return strconv.FormatFloat(round(v/r.finest, 0)*r.finest, 'f', decimals, 64) + " " + r.scale.String()
}
