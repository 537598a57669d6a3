package worth

import (
	"math"

	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/units"
)

// Emergence is the share of a season's weeds that have come up, as a Gompertz
// curve over soil degree-days:
//
//	share(D) = exp(−A·exp(−B·D))
//
// D counts kelvins past Base, in the trigger's direction, times days. They are
// those of real years on average, whose warm spells count before the typical
// day reaches Base: with T the soil of the typical year, a warming season's are
//
//	D = Σ E[max(0, T + DayToDay·Z − Base)]    Z standard normal
//
// Counted from T alone, the quarters of a season come too late. In days, from
// the mean over the years of 71 stations, each year counted from its own days
// at 10 cm (U.S. Climate Reference Network, 2009 to 2024, 859 and 884 years):
//
//	                  bias of 25, 50, 75 %   mean absolute error
//	warming, T alone    +1.9   +1.7   +1.5     2.1   1.8   1.7
//	as counted here     +0.1   +0.1   +0.1     1.0   0.9   0.8
//	cooling, T alone    +1.77  +1.39  +1.07     1.9   1.5   1.1
//	as counted here     −0.1   +0.1   +0.1     0.9   0.7   0.6
//
// At these stations, with a medium half-life, catching up ends 1.6 days earlier
// than it would with T alone and the best day comes 2.1 days earlier; in the
// Piedmont of Georgia 2.5 and 3.3 days, in Kansas 1.5 and 2.0, in Minnesota 1.0
// and 1.2.
type Emergence struct {
	Base     float64 // °C
	A, B     float64 // B per kelvin-day
	DayToDay float64 // K, standard deviation of a day's soil about its year's level

	table []entry
	few   float64 // twice the degree-days up to which the share is less than few
	past  excess

	ups []cubicEntry // the share from upFrom degree-days on, upStep apart
}

// entry is one of a table: its value, and its rise to the next.
type entry struct{ value, rise float64 }

// step is the distance in degree-days between entries of an emergence's
// table; between them the curve is straight to 4e-6.
const step = 0.5

// Between entries of ups the curve is a cubic, right to 1e-7.
const (
	upStep = 4.0   // degree-days
	upFrom = -64.0 // what a step of soil 17 K past the base adds before an origin
)

// place returns the entry of ups for degree-days, and how far past it they are.
// The first entry goes on below.
func (e *Emergence) place(d float64) (*cubicEntry, float64) {
	y := float64((d - upFrom) * (1 / upStep))
	i := min(max(int(y), 0), len(e.ups)-1)
	return &e.ups[i], y - float64(i)
}

// cubicEntry holds the coefficients of a cubic.
type cubicEntry [4]float64

// at returns the cubic and its slope.
func (c *cubicEntry) at(f float64) (value, slope float64) {
	return c[0] + float64(f*(c[1]+float64(f*(c[2]+float64(f*c[3]))))), c[1] + float64(f*(2*c[2]+float64(f*(3*c[3]))))
}

// full is the share at which a season counts as over.
const full = 0.99995

// few is the share up to which a season counts as not begun.
const few = 1e-5

// The swings of daily soil at 10 cm that add to degree-days: the standard
// deviation, in K, about the typical year's curve, each year's own level taken
// off, while the typical soil is within 6 K of the base and until three
// quarters of the weeds are up. 1.97 K warming (south of 38° 1.99, north of it
// 1.95) and 1.57 K cooling (1.62 and 1.54), means over the stations above, single
// ones from 0.6 to 3.1 K. Both hold in the south and the north, and differ by
// six standard errors.
//
// A year's level is left out because it moves a whole season early or late,
// which averages out and is what a Season's spread stands for. With it days lie
// 2.3 K and less than 2 K about the curve; counting so would be too early by
// half a day.
const (
	warmingSwing = 2.0
	coolingSwing = 1.6
)

// through returns the curve that passes 25 % and 75 % at the given
// degree-days.
func through(base, swing, quarter, threeQuarters float64) Emergence {
	low, high := math.Log(4), math.Log(4.0/3)
	b := math.Log(low/high) / (threeQuarters - quarter)
	e := Emergence{Base: base, A: low * math.Exp(b*quarter), B: b, DayToDay: swing, past: newExcess(swing)}
	for d, here := 0.0, e.Share(0); here <= full; {
		d += step
		next := e.Share(d)
		e.table = append(e.table, entry{value: here, rise: next - here})
		here = next
	}
	for e.table[int(e.few)+1].value < few {
		e.few++
	}
	at := func(i int) point {
		d := upFrom + float64(float64(i)*upStep)
		slope := b * e.A * math.Exp(-b*d) * math.Exp(-e.A*math.Exp(-b*d)) / (1 - math.Exp(-e.A))
		return point{e.Share(d), slope * upStep}
	}
	for i := 0; at(i).value < full; i++ {
		a, b := at(i), at(i+1)
		rise := b.value - a.value
		e.ups = append(e.ups, cubicEntry{a.value, a.slope, float64(3*rise) - float64(2*a.slope) - b.slope, a.slope + b.slope - float64(2*rise)})
	}
	e.ups = append(e.ups, cubicEntry{1})
	return e
}

var (
	// Summer is the spring germination of summer annuals: base 12 °C, main
	// emergence from 140 to 230 degree-days, after Fidanza, Dernoeden and
	// Zhang 1996 (Crop Sci. 36:990) for smooth crabgrass in Maryland turf.
	// Their curve is a Gompertz curve; its parameters are not printed in the
	// abstract, and these put 25 % and 75 % at the two ends.
	Summer = through(12, warmingSwing, 140, 230)

	// Winter is the late-summer and autumn germination of winter annuals,
	// counted in degree-days below 21.1 °C. It is ours, laid through the
	// phases that Kaminski and Dernoeden 2007 (Crop Sci. 47:775) saw in
	// Maryland (50 to 70 % between late September and mid-October, peak in
	// early October), and is no published curve.
	Winter = through(float64(units.F.Celsius(70)), coolingSwing, 35, 150)
)

// For returns the emergence that belongs to a direction.
func For(d crossing.Direction) *Emergence {
	if d == crossing.Cooling {
		return &Winter
	}
	return &Summer
}

// Share returns the emerged share, 0 to 1, at degree-days d >= 0. The
// little the Gompertz curve holds at 0 is taken off, so that Share(0) is 0.
func (e Emergence) Share(d float64) float64 {
	none := math.Exp(-e.A)
	return (math.Exp(-e.A*math.Exp(-e.B*d)) - none) / (1 - none)
}

// emerged holds the share that has come up by the beginning of day i of a
// season as element i+1, from the day before its first weeds to its end.
type emerged [season.YearDays + 2]float64

// run works out a season's emergence from a soil year that begins at 0:00 of
// its day 0 and changes evenly between samples. Weeds come up on days
// [begin, end): none later because the season is over or the year is, and
// before less than few of them, which count for day begin. Without weeds begin
// is end.
func (e *Emergence) run(soil *[season.YearDays + 1]float64, d crossing.Direction, up *emerged) (begin, end int) {
	sign := d.Sign()
	begin, twice := e.first(soil, sign)
	up[begin], up[begin+1] = 0, 0
	half, base := sign/2, float64(sign*e.Base)
	table, past := e.table, &e.past
	before := soil[begin]
	for i, after := range soil[begin+1:] {
		x := float64(half*(before+after)) - base
		before = after
		if x < past.reach {
			x = past.at(x)
		}
		twice += float64(2 * x) // the place in the table
		k := int(twice)
		if uint(k) >= uint(len(table)) {
			up[begin+i+2] = 1
			return begin, begin + i + 1
		}
		up[begin+i+2] = table[k].value + float64((twice-float64(k))*table[k].rise)
	}
	if twice < e.few {
		up[season.YearDays], up[season.YearDays+1] = 0, 0
		return season.YearDays, season.YearDays
	}
	return begin, season.YearDays
}

// first returns a day before which few weeds come up, and twice the
// degree-days until then. It takes several days at a time, in which soil
// changes about evenly, at the two points of Gauss.
func (e *Emergence) first(soil *[season.YearDays + 1]float64, sign float64) (day int, twice float64) {
	const (
		days = 6
		away = 1 / (2 * 1.7320508075688772) // of the points from the middle, as a share of the span
	)
	base, past := float64(sign*e.Base), &e.past
	cold := base - past.reach
	for day < season.YearDays && sign*soil[day+1] <= cold {
		day++
	}
	for day <= season.YearDays-days {
		s := (*[days + 1]float64)(soil[day:])
		middle := float64((sign/days)*((s[0]+s[6])/2+s[1]+s[2]+s[3]+s[4]+s[5])) - base
		apart := float64(away * (s[6] - s[0]))
		next := twice + float64(days*(past.at(middle-apart)+past.at(middle+apart)))
		if next >= e.few {
			break
		}
		twice = next
		day += days
	}
	return day, twice
}
