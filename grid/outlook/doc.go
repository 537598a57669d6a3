// Package outlook says when the soil of one place will cross the threshold
// this year, from the reader's own soil thermometer.
//
// It takes the normal soil year of a Place, its year-to-year spread and the
// Readings of this season, and gives an Outlook: how far the soil is from
// normal, the expected day and the days that an early and a late outcome
// would have. It never knows maps, calendars of treatment or the clock.
//
// # Method
//
// The soil's departure from normal is a Gaussian process of two parts: one of
// the weather, forgotten within a week, and one of the season, forgotten
// within two months. The error of the map's typical day is added to the
// second. Its mean given the readings (simple kriging along time) is added to
// the normal year, and where the sum rises past the level for good lies the
// expected day; what the readings leave unexplained of the spread gives the
// interval. As the crossing still lies ahead of a reading, what would lie
// before it is cut off. Nothing is fitted at a place: the constants are those
// of all stations, and forecasts with constants found without the station
// differ by less than a tenth of a day.
//
// # Skill
//
// Measured on daily soil at 10 cm of 63 stations of the U.S. Climate Reference
// Network, 2009 to 2024, 663 years. The year's crossing is the last of the
// first 7 days from the coldest time on whose mean is at or above 55 °F. One
// reading with an error of 0.5 K was taken so many days before the typical day;
// years count in which both it and the 7-day mean were still below the level.
// The normal holds the year judged as one of 8 to 15. Mean absolute error in
// days of the typical day, of the typical day with what lies before the reading
// cut off, and of the outlook; and the shares of years outside its early and
// late day:
//
//	              on the station's own normal        on a map wrong by 0.9 K (5 days)
//	days before   typical   cut  outlook  outside    typical   cut  outlook  outside
//	     0           9.5    4.5    3.6    2 +  9 %     10.8    5.0    4.2    1 +  9 %
//	     7           6.7    5.5    5.1    3 + 12 %      7.5    6.0    5.5    1 + 12 %
//	    14           6.7    6.5    6.1    6 +  8 %      7.6    7.1    6.5    3 + 10 %
//	    21           7.3    7.3    7.0   10 + 10 %      8.0    7.9    7.3    6 + 10 %
//	    28           7.8    7.8    7.6    9 +  8 %      8.4    8.4    7.8    8 +  7 %
//	    42           8.4    8.4    8.4   11 +  8 %      9.4    9.4    9.0   10 +  9 %
//
// So a reading says next to nothing six weeks ahead, gains half a day at two
// weeks and about a day near the crossing. Its larger gain is a band that no
// longer holds what is past: 19 days wide instead of 27 a week before the
// typical day. A reading in each of four weeks gains another 0.1 to 0.3 days.
// 50 and 65 °F and 70 °F falling, on which no constant was chosen, come out
// alike, and so does one spread of 10 days for every station.
//
// Of readings below the level on the typical day 30 %, a week before it 15 %,
// and two weeks before it 6 % came in a relapse after the year's crossing. One
// reading cannot tell; those are left out above.
//
// Shifting the typical day by departure/slope in full errs by 8.9 days at 14
// days and 11.5 at 28, more than the typical day; by half of it by 7.7 at 21
// and 8.3 at 28, more again. The best fixed share of it for each lead, found
// on the other stations, is as good as the process from 14 days on (6.1, 7.0,
// 7.6) and worse near the crossing (4.6 on the typical day), and serves one
// reading only. One decay time instead of two is as good for one reading but
// learns nothing from several.
//
// # Reading the thermometer
//
// Soil at 10 cm swings by some kelvins from morning to evening, so a reading
// should be the mean of one in the morning and one in the evening (common
// practice, no source). An error of 1 K costs 0.1 days, of 2 K 0.2 to 0.4,
// about what the reading brings from two weeks before on.
package outlook
