package source

import (
	"fmt"
	"math"
	"strings"

	"weekband/grid/units"
)

// linear returns how a scale turns numbers into °C: number × slope + zero.
func linear(s units.Scale) (slope, zero float64) {
	z := s.Celsius(0)
	return float64(s.Celsius(1).Sub(z)), float64(z)
}

// findUnit sets the scale: the one asked for, else the one the file names,
// else the one the values look like.
func (n *Normals) findUnit(asked string) error {
	if asked != "" && asked != "auto" {
		s, err := units.ParseScale(asked)
		n.scale, n.why = s, "named in the recipe"
		return err
	}
	told := n.Describe()
	if told.Unit != "" {
		s, ok := scaleOf(told.Unit)
		if !ok {
			return fmt.Errorf("%s: the file gives the unit %q, which is not a temperature's; if it holds temperatures all the same, write unit: C, F, K, 0.1C or 0.1F in the recipe", told.Name, told.Unit)
		}
		n.scale, n.why = s, fmt.Sprintf("the file gives the unit %q", told.Unit)
		return nil
	}
	if n.diff {
		return fmt.Errorf("%s: the unit of deviations cannot be told from their values; write unit: C, F, K, 0.1C or 0.1F in the recipe", told.Name)
	}
	months, err := n.sample()
	if err != nil {
		return err
	}
	s, why, ok := guess(joined(months))
	if !ok {
		if err := n.checkMonths(); err != nil {
			return err
		}
		return fmt.Errorf("%s: %s; write unit: C, F, K, 0.1C or 0.1F in the recipe", told.Name, why)
	}
	n.scale, n.why = s, why
	return nil
}

// scaleOf reads a unit as files write it. Spellings of UDUNITS and common
// ones.
func scaleOf(text string) (units.Scale, bool) {
	t := strings.ToLower(strings.TrimSpace(text))
	factor := ""
	for _, tenth := range []string{"0.1 ", "0.1*", "1e-1 ", "0.1"} {
		if rest, ok := strings.CutPrefix(t, tenth); ok {
			factor, t = "0.1", strings.TrimSpace(rest)
			break
		}
	}
	for _, tenth := range []string{" * 10", "*10", " x 10", "x10"} {
		if rest, ok := strings.CutSuffix(t, tenth); ok {
			factor, t = "0.1", strings.TrimSpace(rest)
			break
		}
	}
	t = strings.TrimPrefix(strings.NewReplacer("_", "", " ", "", "°", "deg", "º", "deg").Replace(t), "deg")
	t = strings.TrimPrefix(strings.TrimPrefix(t, "rees"), "ree")
	var name string
	switch t {
	case "c", "celsius", "centigrade":
		name = "C"
	case "f", "fahrenheit":
		name = "F"
	case "k", "kelvin", "kelvins":
		name = "K"
	default:
		return 0, false
	}
	s, err := units.ParseScale(factor + name)
	return s, err == nil
}

// sampled is what a look at some rows tells.
type sampled struct {
	count     int
	sum       float64
	low, high float64
	whole     bool // all are whole numbers
}

func (s *sampled) mean() float64 { return s.sum / float64(s.count) }

// same reports whether two samples agree in all they tell.
func (s *sampled) same(o *sampled) bool {
	return s.count == o.count && s.low == o.low && s.high == o.high && s.sum == o.sum
}

// joined returns what samples tell together.
func joined(list []sampled) sampled {
	all := list[0]
	for _, s := range list[1:] {
		all.count += s.count
		all.low, all.high = min(all.low, s.low), max(all.high, s.high)
		all.whole = all.whole && s.whole
	}
	return all
}

// sample looks at rows spread over the grid, in all of twelve months or in
// every thirtieth day, each for itself; the first time only.
func (n *Normals) sample() ([]sampled, error) {
	const wantRows = 24
	if n.looked != nil {
		return n.looked, nil
	}
	var list []sampled
	rows, cols := n.grid.Rows(), n.grid.Cols()
	vals, has := make([]float32, cols), make([]bool, cols)
	step := max(1, len(n.layers)/12)
	for i := 0; i < len(n.layers); i += step {
		l := n.layers[i]
		s := sampled{low: math.Inf(1), high: math.Inf(-1), whole: true}
		for k := range min(rows, wantRows) {
			row := (2*k + 1) * rows / (2 * min(rows, wantRows))
			if err := l.from.Read(l.index, row, 1, vals, has); err != nil {
				return nil, err
			}
			s.add(vals, has)
		}
		list = append(list, s)
	}
	n.looked = list
	return list, nil
}

func (s *sampled) add(vals []float32, has []bool) {
	for i, v32 := range vals {
		if !has[i] {
			continue
		}
		v := float64(v32)
		s.count++
		s.sum += v
		s.low, s.high = min(s.low, v), max(s.high, v)
		s.whole = s.whole && v == math.Trunc(v)
	}
}

// guess tells the scale by the range of a year's temperatures over a region.
// Where two scales fit or none, it says so and ok is false.
func guess(s sampled) (scale units.Scale, why string, ok bool) {
	if s.count == 0 {
		return 0, "no values were found in a sample of rows, so the unit cannot be told", false
	}
	values := fmt.Sprintf("values %.4g to %.4g", s.low, s.high)
	var fits []units.Scale
	for _, c := range []units.Scale{units.C, units.F, units.K, units.TenthsC, units.TenthsF} {
		if plausible(s, c) {
			fits = append(fits, c)
		}
	}
	switch len(fits) {
	case 1:
		return fits[0], values + " look like " + scaleWords[fits[0]], true
	case 0:
		return 0, fmt.Sprintf("%s do not look like a year's temperatures on any scale: as Fahrenheit they are %s, as Celsius %s, and a region's warmest month has %d to %d °C, its coldest not under %d °C",
			values, inCelsius(s, units.F), inCelsius(s, units.C), coolSummer, hotSummer, coldWinter), false
	}
	return 0, fmt.Sprintf("%s could be %s or %s", values, scaleWords[fits[0]], scaleWords[fits[1]]), false
}

// inCelsius says what the sample would mean on a scale.
func inCelsius(s sampled, c units.Scale) string {
	return fmt.Sprintf("%.3g to %.3g °C", float64(c.Celsius(s.low)), float64(c.Celsius(s.high)))
}

// Bounds of a region's year in °C: the warmest month reaches the limit of
// trees and of Köppen's polar climates; no monthly mean is hotter than the
// hottest deserts', nor colder than inner Siberia's with some margin.
const (
	coolSummer = 10
	hotSummer  = 42
	coldWinter = -60
)

var scaleWords = map[units.Scale]string{
	units.C: "degrees Celsius", units.F: "degrees Fahrenheit", units.K: "kelvins",
	units.TenthsC: "tenths of a degree Celsius", units.TenthsF: "tenths of a degree Fahrenheit",
}

// plausible reports whether values on the scale make a year's temperatures.
// Tenths are written as whole numbers.
func plausible(s sampled, c units.Scale) bool {
	if (c == units.TenthsC || c == units.TenthsF) && !s.whole {
		return false
	}
	low, high := float64(c.Celsius(s.low)), float64(c.Celsius(s.high))
	return low >= coldWinter && high >= coolSummer && high <= hotSummer
}
