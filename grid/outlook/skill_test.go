package outlook_test

import (
	"math"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/outlook"
)

// want is a row of the table in the package's documentation.
type want struct {
	lead               int
	typical, cut, ours float64 // days, mean absolute errors
	early, late        float64 // shares
	relapsed           float64 // share of readings below the level that came after the crossing
}

// The tables in the documentation, recomputed: each error to 0.3 days, which
// is what another draw of the errors does, and the shares to 0.04.
func TestSkill(t *testing.T) {
	list := stationsAt(t, spring)
	years := 0
	for _, s := range list {
		years += len(s.crossings)
	}
	t.Logf("%d stations, %d years", len(list), years)
	if len(list) < 60 || years < 640 {
		t.Errorf("%d stations and %d years, want 63 and 663", len(list), years)
	}
	for _, wrong := range []float64{0, 0.9} {
		for _, w := range skill[wrong] {
			all := trials(list, w.lead, wrong)
			left := ahead(all)
			typical, cut, ours := judge(left, byTypical), judge(left, byCut), judge(left, byOutlook(t, alone))
			t.Logf("map %.1f K off, %2d days before: %d years, typical %.2f, cut %.2f, outlook %.2f, early %.3f, late %.3f, width %.1f for %.1f, rmse %.2f for %.2f",
				wrong, w.lead, len(left), typical.mae, cut.mae, ours.mae, ours.early, ours.late, ours.width, typical.width, ours.rmse, typical.rmse)
			for _, k := range []struct {
				name            string
				got, want, most float64
			}{
				{"error of the typical day", typical.mae, w.typical, 0.3},
				{"error of the cut typical day", cut.mae, w.cut, 0.3},
				{"error of the outlook", ours.mae, w.ours, 0.3},
				{"share before early", ours.early, w.early, 0.04},
				{"share after late", ours.late, w.late, 0.04},
			} {
				if math.Abs(k.got-k.want) > k.most {
					t.Errorf("%s %d days before, map %.1f K off: %.3f, documented %.3f", k.name, w.lead, wrong, k.got, k.want)
				}
			}
			below, relapsed := 0.0, 0.0
			for _, tr := range all {
				if !tr.past {
					below++
				}
				if !tr.past && tr.happened < tr.at {
					relapsed++
				}
			}
			t.Logf("of %.0f readings below the level %.2f came after the year's crossing", below, relapsed/below)
			if math.Abs(relapsed/below-w.relapsed) > 0.05 {
				t.Errorf("%d days before, map %.1f K off: %.2f of the readings in a relapse, documented %.2f", w.lead, wrong, relapsed/below, w.relapsed)
			}
			if !(ours.mae < typical.mae) || !(ours.mae < cut.mae) {
				t.Errorf("%d days before the outlook errs by %.2f days, the typical day by %.2f, cut %.2f", w.lead, ours.mae, typical.mae, cut.mae)
			}
		}
	}
}

var skill = map[float64][]want{
	0: {
		{0, 9.5, 4.5, 3.6, 0.02, 0.09, 0.30}, {7, 6.7, 5.5, 5.1, 0.03, 0.12, 0.15}, {14, 6.7, 6.5, 6.1, 0.06, 0.08, 0.06},
		{21, 7.3, 7.3, 7.0, 0.10, 0.10, 0.03}, {28, 7.8, 7.8, 7.6, 0.09, 0.08, 0.02}, {42, 8.4, 8.4, 8.4, 0.11, 0.08, 0},
	},
	0.9: {
		{0, 10.8, 5.0, 4.2, 0.01, 0.09, 0.27}, {7, 7.5, 6.0, 5.5, 0.01, 0.12, 0.13}, {14, 7.6, 7.1, 6.5, 0.03, 0.10, 0.06},
		{21, 8.0, 7.9, 7.3, 0.06, 0.10, 0.04}, {28, 8.4, 8.4, 7.8, 0.08, 0.07, 0.02}, {42, 9.4, 9.4, 9.0, 0.10, 0.09, 0},
	},
}

// Simpler ways are not as good at all leads.
func TestSimplerWaysAreWorse(t *testing.T) {
	list := stationsAt(t, spring)
	for _, lead := range []int{0, 7, 14, 21, 28, 42} {
		left := ahead(trials(list, lead, 0))
		typical, ours := judge(left, byTypical).mae, judge(left, byOutlook(t, alone)).mae
		full, half := judge(left, byShare(1)).mae, judge(left, byShare(0.5)).mae
		shares := map[int]float64{}
		best := judge(left, func(tr *trial) (float64, float64, float64) {
			if _, ok := shares[tr.station]; !ok {
				shares[tr.station] = bestShare(left, tr.station)
			}
			return byShare(shares[tr.station])(tr)
		}).mae
		t.Logf("%d days before: outlook %.2f, typical %.2f, full %.2f, half %.2f, best share of the other stations %.2f", lead, ours, typical, full, half, best)
		if lead >= 7 && full < typical || lead >= 21 && half < typical {
			t.Errorf("%d days before a shift errs by %.2f in full, %.2f by half, the typical day by %.2f", lead, full, half, typical)
		}
		if ours > best+0.1 || ours > half || ours > full {
			t.Errorf("%d days before the outlook errs by %.2f, a fixed share by %.2f", lead, ours, min(best, half, full))
		}
	}
}

// A worse thermometer costs little: 0.1 days for 1 K and 0.4 for 2 K.
func TestAWorseThermometer(t *testing.T) {
	list := stationsAt(t, spring)
	for _, lead := range []int{7, 14, 21, 28} {
		var mae []float64
		for _, readingError := range []float64{0.5, 1, 2} {
			left := ahead(trialsRead(list, lead, 0, readingError))
			mae = append(mae, judge(left, byOutlook(t, alone)).mae)
		}
		t.Logf("%d days before: %.2f with an error of 0.5 K, %.2f with 1 K, %.2f with 2 K", lead, mae[0], mae[1], mae[2])
		if mae[1]-mae[0] > 0.2 || mae[2]-mae[0] > 0.6 {
			t.Errorf("%d days before the errors are %.2f", lead, mae)
		}
	}
}

// One spread of 10 days for all stations does as well as each one's own.
func TestOneSpreadForAll(t *testing.T) {
	list := stationsAt(t, spring)
	for _, lead := range []int{7, 14, 21, 28} {
		left := ahead(trials(list, lead, 0))
		own := judge(left, byOutlook(t, alone))
		for i := range left {
			left[i].place.Spread = 10
		}
		same := judge(left, byOutlook(t, alone))
		t.Logf("%d days before: %.2f with one spread, %.2f with each one's own, outside %.3f and %.3f", lead, same.mae, own.mae, same.early, same.late)
		if math.Abs(same.mae-own.mae) > 0.15 || same.early > 0.13 || same.late > 0.14 {
			t.Errorf("%d days before: %.2f with one spread, %.2f with each one's own, outside %.3f and %.3f", lead, same.mae, own.mae, same.early, same.late)
		}
	}
}

// A reading in each of the four weeks is better than the last alone.
func TestMoreReadingsHelp(t *testing.T) {
	list := stationsAt(t, spring)
	for _, wrong := range []float64{0, 0.9} {
		for _, lead := range []int{7, 14, 21} {
			type year struct {
				station  int
				happened float64
			}
			older := map[year][]outlook.Reading{}
			for weeks := 1; weeks <= 3; weeks++ {
				for _, tr := range trials(list, lead+7*weeks, wrong) {
					key := year{tr.station, tr.happened}
					older[key] = append(older[key], tr.reading)
				}
			}
			left := ahead(trials(list, lead, wrong))
			one := judge(left, byOutlook(t, alone))
			four := judge(left, byOutlook(t, func(tr *trial) []outlook.Reading {
				return append([]outlook.Reading{tr.reading}, older[year{tr.station, tr.happened}]...)
			}))
			t.Logf("map %.1f K off, %d days before: %.2f days (rmse %.2f) with one reading, %.2f (%.2f) with four, outside %.2f and %.2f", wrong, lead, one.mae, one.rmse, four.mae, four.rmse, four.early, four.late)
			if gain := one.rmse - four.rmse; gain < -0.05 || gain > 0.6 {
				t.Errorf("three more readings gain %.2f days", gain)
			}
		}
	}
}

// What a reading at the level means: after most of those called reached the
// year's crossing is past or a week away, after most others it is not.
func TestReachedMeansPastOrClose(t *testing.T) {
	list := stationsAt(t, spring)
	var n, past, week [2]float64 // 1: reached
	for _, lead := range []int{7, 14, 21, 28, 42, 56} {
		for _, tr := range trials(list, lead, 0) {
			if !tr.past {
				continue
			}
			o, err := tr.place.Expect(alone(&tr))
			if err != nil {
				t.Fatal(err)
			}
			i := 0
			if o.State == outlook.Reached {
				i = 1
			}
			n[i]++
			if tr.happened <= tr.at {
				past[i]++
			}
			if tr.happened <= tr.at+7 {
				week[i]++
			}
		}
	}
	for i := range n {
		past[i] /= n[i]
		week[i] /= n[i]
	}
	t.Logf("reached: %.0f, past %.2f, within a week %.2f; spells: %.0f, past %.2f, within a week %.2f", n[1], past[1], week[1], n[0], past[0], week[0])
	if past[1] < 0.5 || week[1] < 0.8 || past[0] > 0.2 || week[0] > 0.5 {
		t.Errorf("shares past %v and within a week %v of spells and of reached", past, week)
	}
}

// The constants serve other levels and the other direction: the same table,
// with wider bounds.
func TestOtherTriggers(t *testing.T) {
	for _, trigger := range []crossing.Trigger{
		{Level: 10, Direction: crossing.Warming},        // 50 °F
		{Level: 165.0 / 9, Direction: crossing.Warming}, // 65 °F
		{Level: 190.0 / 9, Direction: crossing.Cooling}, // 70 °F
	} {
		list := stationsAt(t, trigger)
		for _, w := range skill[0] {
			left := ahead(trials(list, w.lead, 0))
			typical, ours := judge(left, byTypical), judge(left, byOutlook(t, alone))
			t.Logf("%v %v, %d days before: %d years, typical %.2f, outlook %.2f, early %.3f, late %.3f", trigger.Level.Both(), trigger.Direction, w.lead, len(left), typical.mae, ours.mae, ours.early, ours.late)
			if ours.mae > typical.mae+0.1 || math.Abs(ours.mae-w.ours) > 0.8 || ours.early > 0.14 || ours.late > 0.19 {
				t.Errorf("%v %v, %d days before: errs by %.2f, typical %.2f, outside %.2f and %.2f", trigger.Level.Both(), trigger.Direction, w.lead, ours.mae, typical.mae, ours.early, ours.late)
			}
		}
	}
}
