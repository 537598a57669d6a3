package series

import (
	"math"
	"time"

	"weekband/grid"
	"weekband/grid/units"
)

// Network is a set of stations with paired series of air and soil.
type Network struct {
	List    []Station
	Depths  []units.Metres // of the soil sensors, the shallowest first
	Monthly bool           // series hold means of months, not of days
	Notes   []string       // what was left out or passed over, for the user
}

// Depth returns the index in Depths, and so in Station.Soil, of the sensor at
// a depth. Depths within 5 mm are one: 4 in are 10 cm.
func (n *Network) Depth(depth units.Metres) (int, bool) {
	for i, d := range n.Depths {
		if math.Abs(float64(d-depth)) < 0.005 {
			return i, true
		}
	}
	return 0, false
}

// Station is one place where air and soil are measured. All its series begin
// on the same date and have the same length.
type Station struct {
	ID, Name      string
	At            grid.LonLat
	Elevation     float64 // m above sea level
	Monthly       bool    // elements are months, First the first of one
	First         Date    // of element 0
	Air           Values  // °C
	Soil          []Values
	Precipitation Values // mm; no elements when the file has no such column
}

// Values is the series of one sensor, an element a day, or a month when the
// station is Monthly. An element without presence is 0 and means nothing.
type Values struct {
	Vals []float32
	Has  []bool
}

// Len returns the number of elements of every series but Precipitation.
func (s *Station) Len() int { return len(s.Air.Has) }

// Date returns the date of an element: of a month, its first day.
func (s *Station) Date(i int) Date {
	if !s.Monthly {
		return s.First + Date(i)
	}
	y, m, _ := s.First.YMD()
	return NewDate(y, m+time.Month(i), 1)
}

// Count returns how many elements are present.
func (v *Values) Count() int {
	n := 0
	for _, ok := range v.Has {
		if ok {
			n++
		}
	}
	return n
}

func newValues(n int) Values { return Values{Vals: make([]float32, n), Has: make([]bool, n)} }

// drop takes elements from to to, both included, away.
func (v *Values) drop(from, to int) {
	for i := from; i <= to; i++ {
		v.Vals[i], v.Has[i] = 0, false
	}
}

// calendar holds the month, 0 for January, the year and the noon of every
// element of a station.
type calendar struct {
	month []uint8
	year  []int16
	noon  []float32 // season.Day; halves are exact
}

func (s *Station) calendar() calendar {
	n := s.Len()
	c := calendar{make([]uint8, n), make([]int16, n), make([]float32, n)}
	for i := range n {
		d := s.Date(i)
		y, m, _ := d.YMD()
		c.month[i], c.year[i], c.noon[i] = uint8(m-1), int16(y), float32(d.Noon())
	}
	return c
}
