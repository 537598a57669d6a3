// Package series reads what stations measured in air and soil at the same
// time, and says what is typical of it and how years differ.
//
// It takes two CSV files, sites and daily or monthly values, and gives a
// Network. Clean checks it, Station.Normal gives the typical year of a pair of
// sensors, Station.Yearly the crossings of each year, Station.MonthSD the
// year-to-year spread of months. It never knows grids, models of soil fitted to
// a place, or how one station informs another.
//
// Measured at the 77 reference stations, soil at 10 cm, mean ± standard
// deviation over the stations of the median year's day less that of the typical
// year's curve, in days; and the median over stations of the standard deviation
// from year to year (57 to 70 stations with 8 years or more, 700 to 880 years):
//
//	warming     50 °F        55 °F        60 °F        65 °F      year to year
//	trailing7   −1.7 ± 4.8   −0.9 ± 4.0   −0.7 ± 4.4   +0.6 ± 4.1   10.2–11.0
//	firstday   −11.1 ± 6.8  −10.9 ± 7.4  −10.1 ± 6.5   −8.2 ± 6.1   10.6–11.1
//	fivedays    −1.6 ± 3.4   −0.9 ± 3.3   −0.8 ± 3.9   −0.4 ± 3.7   10.7–11.3
//	centred7    −4.7 ± 4.8   −3.9 ± 4.0   −3.6 ± 4.4   −2.4 ± 4.1   10.2–11.0
//	lastbelow   +9.3 ± 4.7  +10.2 ± 5.7  +10.9 ± 4.6   +9.9 ± 4.8    9.8–10.5
//
//	cooling     50 °F        55 °F        60 °F        65 °F      year to year
//	trailing7   +1.7 ± 2.6   +2.0 ± 2.6   +0.9 ± 3.0   +0.9 ± 3.3    7.8–8.4
//	firstday    −5.8 ± 3.5   −5.2 ± 3.4   −6.2 ± 4.4   −7.5 ± 5.1    8.4–9.5
//	fivedays    +0.8 ± 2.8   +0.6 ± 2.9   +0.0 ± 2.8   +0.0 ± 2.6    8.1–8.9
//	centred7    −1.3 ± 2.6   −1.0 ± 2.6   −2.1 ± 3.0   −2.1 ± 3.3    7.8–8.4
//	lastbelow   +9.8 ± 8.8  +10.0 ± 9.1  +10.4 ± 8.7   +7.9 ± 7.0    8.1–8.5
//
// So the definition alone moves the median by 20 days in spring, and the curve
// of the typical year stands for a seven-day trailing mean or five days in a
// row.
package series
