package carto

import (
	"math"

	"weekband/grid"
)

// Borders between the projections Choose picks from; common practice (Snyder
// 1987, p. 34: cylindrical near the equator, conic in middle latitudes,
// azimuthal near the poles and for round areas), the figures are ours.
const (
	equatorialDeg = 12  // a box centred nearer to the equator gets a cylinder
	worldDeg      = 200 // a wider box would open a cone past half a turn
	polarDeg      = 65  // a box centred nearer to a pole gets an azimuthal map
	highDeg       = 50  // from here on a roughly round box does, too
	roundRatio    = 1.5 // longer side over shorter side of a "roughly round" box
)

// Choose returns an equal-area projection on WGS 84 suited to the box: Albers'
// conic with parallels a sixth of the latitudes inside its northern and
// southern edges, a cylinder near the equator or for a world map, an azimuthal
// map near the poles or for a roughly round box in high latitude. It panics
// when the box is empty or leaves the earth.
func Choose(box grid.Box) Projection {
	if !(box.West < box.East && box.South < box.North && box.South >= -90 && box.North <= 90) {
		panic("carto: no projection for the box " + box.String())
	}
	c := box.Center()
	width := box.East - box.West
	var p Projection
	var err error
	switch lat := math.Abs(c.Lat); {
	case lat < equatorialDeg || width > worldDeg && lat < highDeg:
		p, err = NewCylindrical(WGS84, c.Lon, halving(box))
	case width > worldDeg:
		p, err = NewAzimuthal(WGS84, grid.LonLat{Lon: c.Lon, Lat: math.Copysign(90, c.Lat)})
	case lat >= polarDeg || lat >= highDeg && roundish(box):
		p, err = NewAzimuthal(WGS84, c)
	default:
		p, err = NewAlbers(WGS84, c, sixths(box))
	}
	if err != nil {
		panic(err)
	}
	return p
}

// halving returns the parallel that halves the area between the equator and
// the edge of the box farther from it, rounded to whole degrees: 30° for the
// world.
func halving(box grid.Box) float64 {
	far := max(math.Abs(box.South), math.Abs(box.North))
	return math.Round(math.Asin(math.Sin(far*radian)/2) / radian)
}

// sixths returns the parallels a sixth of the latitudes inside the edges,
// rounded to a readable figure.
func sixths(box grid.Box) Parallels {
	height := box.North - box.South
	step := math.Pow(10, math.Floor(math.Log10(height/10))) / 2
	round := func(lat float64) float64 { return math.Round(lat/step) * step }
	return Parallels{First: round(box.South + height/6), Second: round(box.North - height/6)}
}

// roundish reports whether the sides of the box are alike in length.
func roundish(box grid.Box) bool {
	w := (box.East - box.West) * math.Cos(box.Center().Lat*radian)
	h := box.North - box.South
	return max(w, h) <= roundRatio*min(w, h)
}
