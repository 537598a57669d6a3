package verdict

import (
	"weekband/grid/agreement"
	"weekband/render/caution"
)

// Reply is a comparison for programs. Departures are thermometer less
// map: warmer and later are positive.
type Reply struct {
	Title    string         `json:"title"`
	Edition  int            `json:"edition"`
	Measures string         `json:"measures"`
	Windows  []verdictReply `json:"windows"`
	Cautions []string       `json:"cautions"`
}

type verdictReply struct {
	Window string       `json:"window"`
	Total  totalReply   `json:"total"`
	Places []placeReply `json:"places"`
	OffMap int          `json:"off_map"`
}

type totalReply struct {
	Places    int     `json:"places"`
	Readings  int     `json:"readings"`
	Departure float64 `json:"departure_c"`
	Size      float64 `json:"absolute_departure_c"`
	Dated     int     `json:"places_with_years"`
	Years     int     `json:"years"`
	Off       float64 `json:"days_off"`
	OffError  float64 `json:"days_off_standard_error"`
	OffSize   float64 `json:"absolute_days_off"`
	Inside    float64 `json:"share_of_years_inside"`
}

type placeReply struct {
	Place     string      `json:"place"`
	Lat       float64     `json:"lat"`
	Lon       float64     `json:"lon"`
	Depth     float64     `json:"depth_m,omitempty"`
	Readings  int         `json:"readings"`
	Departure float64     `json:"departure_c"`
	Reason    string      `json:"reason"`
	Typical   string      `json:"typical,omitempty"`
	Measured  string      `json:"measured,omitempty"`
	Off       *float64    `json:"days_off,omitempty"`
	Years     []yearReply `json:"years,omitempty"`
}

type yearReply struct {
	Year   int    `json:"year"`
	Day    string `json:"day"`
	Inside bool   `json:"inside"`
}

// Reply returns the comparison for programs.
func (a *Verdicts) Reply() Reply {
	e, all := a.edition, a.list
	r := Reply{Title: e.Title, Edition: e.Index.Edition, Measures: e.Measures, Cautions: caution.All[:]}
	for i := range all {
		v := &all[i]
		t := agreement.Sum(v.places)
		w := verdictReply{Window: v.window.ID, OffMap: v.off, Places: []placeReply{}, Total: totalReply{
			Places: t.Places, Readings: t.Readings, Departure: float64(t.Departure), Size: float64(t.Size),
			Dated: t.Dated, Years: t.Years, Off: t.Off, OffError: t.OffError, OffSize: t.OffSize, Inside: t.Inside,
		}}
		for k := range v.places {
			w.Places = append(w.Places, newPlaceReply(&v.places[k]))
		}
		r.Windows = append(r.Windows, w)
	}
	return r
}

func newPlaceReply(p *agreement.Place) placeReply {
	r := placeReply{
		Place: p.Log.Name, Lat: p.Log.At.Lat, Lon: p.Log.At.Lon, Depth: float64(p.Log.Depth),
		Readings: p.Readings, Departure: float64(p.Departure), Reason: p.Crossing.Reason.String(),
	}
	if p.Crossing.Reason.HasDay() {
		r.Typical = p.Crossing.Day.ISO()
	}
	if len(p.Years) > 0 {
		off := p.Off
		r.Measured, r.Off = p.Median.ISO(), &off
	}
	for _, y := range p.Years {
		r.Years = append(r.Years, yearReply{Year: y.Year, Day: y.Day.ISO(), Inside: y.Inside})
	}
	return r
}
