package surface

import (
	"math"

	"weekband/grid"
)

// cover is what the drift knows of a place besides its position, in this
// order: height in km; rise, the logarithm of the height above the valley
// floor; coast, the logarithm of the distance to the sea.
type cover [3]float64

const (
	riseScale  = 60 // m: below it the rise grows with the height, above ever slower
	coastScale = 5  // km: likewise
)

// coverOf makes the cover of a place at an elevation in m. ok is false where
// the land is not known; then only the height is set.
func (l *Land) coverOf(at grid.LonLat, elevation float64) (c cover, ok bool) {
	c[0] = elevation / 1000
	a, ok := l.at(at)
	if !ok {
		return c, false
	}
	c[1] = math.Log1p(max(0, elevation-a.low) / riseScale)
	c[2] = math.Log1p(a.shore / coastScale)
	return c, true
}

// covers returns the covers of all stations. Stations off the land take the
// mean rise and coast of the nearest eight that are on it: they only matter
// near its edge. ok is false when no station is on the land.
func (l *Land) covers(list []Station, x index, places []grid.Globe) (c []cover, mean cover, ok bool) {
	c = make([]cover, len(list))
	known := make([]bool, len(list))
	on := 0
	for i, st := range list {
		c[i], known[i] = l.coverOf(st.At, st.Elevation)
		if known[i] {
			on++
			mean[1] += c[i][1]
			mean[2] += c[i][2]
		}
	}
	if on == 0 {
		return nil, mean, false
	}
	mean[1], mean[2] = mean[1]/float64(on), mean[2]/float64(on)
	var near []grid.Globe
	var ids []int
	for i, k := range known {
		if k {
			near, ids = append(near, places[i]), append(ids, i)
		}
	}
	if on < len(list) {
		x = newIndex(near)
	}
	for i, k := range known {
		if k {
			continue
		}
		found, _ := x.nearest(places[i], 8, -1)
		for _, j := range found {
			c[i][1] += c[ids[j]][1] / float64(len(found))
			c[i][2] += c[ids[j]][2] / float64(len(found))
		}
	}
	return c, mean, true
}

// frame is a plane that touches the globe at a place.
type frame struct{ at, east, north grid.Globe }

func frameAt(p grid.LonLat) frame {
	sinφ, cosφ := math.Sincos(p.Lat * math.Pi / 180)
	sinλ, cosλ := math.Sincos(p.Lon * math.Pi / 180)
	return frame{
		at:    p.Globe(),
		east:  grid.Globe{-sinλ, cosλ, 0},
		north: grid.Globe{-sinφ * cosλ, -sinφ * sinλ, cosφ},
	}
}

// driftKm is the unit of east and north in the drift.
const driftKm = 100

// drift returns the drift terms of a place: 1, east, north and the cover.
func (f *frame) drift(at *grid.Globe, c *cover) [terms]float64 {
	return [terms]float64{
		1,
		(float64(f.east[0]*at[0]) + float64(f.east[1]*at[1])) / driftKm,
		(float64(f.north[0]*at[0]) + float64(f.north[1]*at[1]) + float64(f.north[2]*at[2])) / driftKm,
		c[0], c[1], c[2],
	}
}
