package surface

import (
	"errors"
	"fmt"

	"weekband/grid"
	"weekband/grid/units"
)

// Quantity is what a Model is fitted to.
type Quantity uint8

const (
	Means      Quantity = iota // the monthly normals, °C
	Deviations                 // their year-to-year standard deviations, K
)

// String returns the name of the quantity for messages.
func (q Quantity) String() string {
	if q == Deviations {
		return "standard deviations"
	}
	return "monthly means"
}

// Options steer Fit. The zero value takes the defaults.
type Options struct {
	Quantity Quantity
	// Neighbours is how many stations an estimate draws on; 0 is 80.
	Neighbours int
	// Covariance is used as it is; nil fits one to the stations.
	Covariance *Covariance
	// KeepAll keeps stations in that the rule for gross outliers leaves out.
	KeepAll bool
}

// DefaultNeighbours is how many stations an estimate draws on.
const DefaultNeighbours = 80

// Model is what stations tell about the places between them. It does not
// change and may be used by several goroutines.
type Model struct {
	net      network
	cov      Covariance // sill 1
	sill     [months]float64
	quantity Quantity
	reachKm  float64 // median radius of a neighbourhood
}

// Fit makes a Model of stations, and reports how well each station is
// predicted from the others. With land the drift follows height, rise above
// the valley floor and distance to the sea; land nil means that elevations
// are not used at all. The stations are checked first: those far from what
// their neighbours say are listed, gross ones left out (see Report).
//
// It returns an error when no station has the quantity, when fewer than four
// have, or when no station lies on the land.
func Fit(stations *Stations, land *Land, opts Options) (*Model, *Report, error) {
	list := stations.List
	if opts.Quantity == Deviations {
		list = nil
		for _, st := range stations.List {
			if st.HasSD {
				list = append(list, st)
			}
		}
	}
	if len(list) <= free {
		return nil, nil, fmt.Errorf("%s with %v for all twelve months; at least %d are needed", units.Count(len(list), "station"), opts.Quantity, free+1)
	}
	m := &Model{quantity: opts.Quantity}
	if err := m.connect(list, land, opts); err != nil {
		return nil, nil, err
	}
	if opts.Covariance != nil {
		m.cov = *opts.Covariance
		m.cov.Nugget, m.cov.Sill = m.cov.noise(), 1
	} else {
		var err error
		if m.cov, err = m.net.fitCovariance(); err != nil {
			return nil, nil, err
		}
	}
	report, err := m.check(land, opts)
	if err != nil {
		return nil, nil, err
	}
	report.Assumed = opts.Covariance == nil && len(list) < fewest
	return m, report, nil
}

// connect makes the network of a list of stations.
func (m *Model) connect(list []Station, land *Land, opts Options) error {
	n := network{list: list, land: land, k: opts.Neighbours}
	if n.k <= 0 {
		n.k = DefaultNeighbours
	}
	n.places = make([]grid.Globe, len(list))
	n.z = make([][months]float64, len(list))
	for i, st := range list {
		n.places[i] = st.At.Globe()
		n.z[i] = values(&list[i], opts.Quantity)
	}
	n.index = newIndex(n.places)
	n.covers = make([]cover, len(list))
	if land != nil {
		ok := false
		if n.covers, n.mean, ok = land.covers(list, n.index, n.places); !ok {
			return errors.New("none of the stations lies on the terrain; do both cover the same region?")
		}
		n.slopes = n.slopesOf(opts.Quantity)
		for i := range n.z {
			var known [months]float64
			n.slopes.trend(&n.covers[i], &known)
			for q := range known {
				n.z[i][q] -= known[q]
			}
		}
	}
	m.net = n
	return nil
}

// values returns a station's twelve numbers.
func values(st *Station, q Quantity) (v [months]float64) {
	for i := range v {
		v[i] = float64(st.Mean[i])
		if q == Deviations {
			v[i] = float64(st.SD[i])
		}
	}
	return v
}

// Slope is how much a month's values change with the cover on average, over
// differences between neighbouring stations.
type Slope struct {
	PerKm float64 // K for a km of height at the same height above the valley floor
	Rise  float64 // K for each ln(1 + height above the valley floor/60 m)
	Coast float64 // K for each ln(1 + distance to the sea/5 km)
}

// Slope returns the slopes of a month, 0 for January; zero without land.
func (m *Model) Slope(month int) Slope {
	s := &m.net.slopes
	return Slope{PerKm: s[0][month], Rise: s[1][month], Coast: s[2][month]}
}

// At returns the twelve estimates at a place at an elevation in m and their
// standard errors, worked out from the stations nearest to the place itself.
// A Surface gives the same to the tolerance it states, much faster.
func (m *Model) At(at grid.LonLat, elevation float64) (est, stdErr [12]float64) {
	var s solver
	s.buildAt(&m.net, at, -1, m.cov)
	c := m.net.coverAt(at, elevation)
	est, unit := s.predict(&m.net, &s.frame.at, &c)
	scale := m.scale(&s.misfit, s.trust)
	for i := range stdErr {
		stdErr[i] = stdError(scale[i], unit)
	}
	return est, stdErr
}

// coverAt returns the cover of a cell. Where the land is not known it takes
// the mean of the stations.
func (n *network) coverAt(at grid.LonLat, elevation float64) cover {
	if n.land == nil {
		return cover{}
	}
	c, ok := n.land.coverOf(at, elevation)
	if !ok {
		c[1], c[2] = n.mean[1], n.mean[2]
	}
	return c
}
