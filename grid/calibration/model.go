package calibration

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/units"
)

// fewest is how many stations a Model needs: fewer cannot tell how much they
// differ.
const fewest = 5

// driftFrom is how many stations, and mildSpread how many °C of standard
// deviation between them, the drift with the mildness of winter needs.
const (
	driftFrom  = 12
	mildSpread = 1.0
)

// Model gives the offset of any place from calibration stations. It does not
// change and may be used by several goroutines.
type Model struct {
	Covariance Covariance // of the offsets over distance
	stations   []Station
	at         []grid.Globe
	drift      *mat.Dense
	values     *mat.Dense
	sys        *system
	beta       [2]coefficients
	inner      [2][2]float64
	// sdNear and sdFar are the standard errors of the offset at 0:00 of every
	// day, in K: of a unit of the kriging variance, and of soil.DefaultOffset
	// where no station is near.
	sdNear, sdFar [season.YearDays]float64
}

// Trust says how far an offset may be trusted. Near is 1 within the reach of
// the stations and 0 where soil.DefaultOffset holds alone; Variance is that of
// kriging, in units of the stations' own.
type Trust struct{ Near, Variance float64 }

// New makes a Model of the stations of a table; name stands for it in
// messages. It returns an error for fewer than five stations at different
// places.
func New(name string, list []Station) (*Model, error) {
	places := map[grid.LonLat]bool{}
	for _, st := range list {
		places[st.At] = true
	}
	if len(places) < fewest {
		return nil, fmt.Errorf("%s: offsets at %d different places; want at least %d, fewer cannot tell how much places differ", name, len(places), fewest)
	}
	m, err := fit(name, list, drift(list))
	if err != nil {
		return nil, err
	}
	m.ready()
	return m, nil
}

// ready copies what At needs for every cell out of the system.
func (m *Model) ready() {
	for p := range m.sys.p {
		mat.Row(m.beta[p][:], p, m.sys.beta)
		for q := range m.sys.p {
			m.inner[p][q] = m.sys.inner.At(p, q)
		}
	}
}

// fit makes a Model with a drift, a row a station. It can foretell its own
// stations; At needs the drift of New.
func fit(name string, list []Station, drift *mat.Dense) (*Model, error) {
	m := &Model{stations: slices.Clone(list), drift: drift, values: mat.NewDense(len(list), terms, nil)}
	for i, st := range list {
		m.at = append(m.at, st.At.Globe())
		c := coefficientsOf(st.Offset)
		m.values.SetRow(i, c[:])
	}
	var err error
	if m.Covariance, err = fitCovariance(m.at, m.drift, m.values); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if m.sys, err = solve(m.Covariance, m.at, m.drift, m.values); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	m.errors()
	return m, nil
}

// drift returns what the drift knows of stations, a row each.
func drift(list []Station) *mat.Dense {
	cols := 1
	if len(list) >= driftFrom && mildSD(list) >= mildSpread {
		cols = 2
	}
	d := mat.NewDense(len(list), cols, nil)
	for i, st := range list {
		f := driftOf(st.Coldest)
		d.SetRow(i, f[:cols])
	}
	return d
}

// driftOf returns what the drift knows of a place: a constant, and how far
// above 0 °C its air stays, in tens of degrees.
func driftOf(coldest units.Celsius) [2]float64 {
	return [2]float64{1, max(float64(coldest), 0) / 10}
}

func mildSD(list []Station) float64 {
	sum, square := 0.0, 0.0
	for _, st := range list {
		v := max(float64(st.Coldest), 0)
		sum += v
		square += float64(v * v)
	}
	n := float64(len(list))
	return math.Sqrt(max(square/n-sum*sum/(n*n), 0))
}

// errors works out the standard errors of every day.
func (m *Model) errors() {
	for i := range season.YearDays {
		b := mat.NewVecDense(terms, basis[i][:])
		m.sdNear[i] = math.Sqrt(max(mat.Inner(b, m.sys.sigma, b), 0))
		square := 0.0
		for _, st := range m.stations {
			c := coefficientsOf(st.Offset)
			d := c.at(i) - soil.DefaultOffset
			square += float64(d * d)
		}
		m.sdFar[i] = math.Sqrt(square / float64(len(m.stations)))
	}
}

// Stations returns how many stations the model has.
func (m *Model) Stations() int { return len(m.stations) }

// Reaches reports whether offsets of the stations count anywhere in a box.
func (m *Model) Reaches(box grid.Box) bool {
	for i, st := range m.stations {
		at := grid.LonLat{Lon: min(max(st.At.Lon, box.West), box.East), Lat: min(max(st.At.Lat, box.South), box.North)}
		edge := at.Globe()
		if m.at[i].Distance(&edge) < 2*m.Covariance.RangeKm {
			return true
		}
	}
	return false
}

// StdErr returns the standard error of an offset on a day in K: of a
// thermometer at a place, so differences between sites are in it.
func (m *Model) StdErr(t Trust, d season.Day) units.Delta {
	i := int(d.In()) - 1
	near, far := m.sdNear[i], m.sdFar[i]
	return units.Delta(math.Sqrt(float64(t.Near*t.Variance*near*near) + float64((1-t.Near)*far*far)))
}

// At returns the offset of a place whose typical year of air is coldest at
// the given temperature, and how far to trust it.
//
// Within one range of the covariance from the nearest station the offset is
// kriged; from there to two ranges it fades to soil.DefaultOffset.
func (m *Model) At(at grid.LonLat, coldest units.Celsius) (soil.Offset, Trust) {
	n := m.node(at.Globe())
	return m.finish(&n, coldest)
}

// node is what the stations tell about a place before its air is known. All
// its parts vary smoothly, so that they may be interpolated between places.
type node struct {
	near     float64
	smooth   coefficients // cᵀα
	variance float64      // 1 + nugget − cᵀK⁻¹c
	pull     [2]float64   // FᵀK⁻¹c
}

func (m *Model) node(at grid.Globe) node {
	reach := m.reach(&at)
	n := node{near: min(max(reach, 0), 1)}
	if reach < -margin {
		return n
	}
	c := mat.NewVecDense(len(m.at), nil)
	for i := range m.at {
		c.SetVec(i, m.Covariance.between(&at, &m.at[i]))
	}
	smooth := mat.NewVecDense(terms, n.smooth[:])
	smooth.MulVec(m.sys.alpha.T(), c)
	n.variance = 1 + m.Covariance.Nugget - mat.Inner(c, m.sys.inverse, c)
	pull := mat.NewVecDense(m.sys.p, n.pull[:m.sys.p])
	pull.MulVec(m.sys.kf.T(), c)
	return n
}

// margin is how far, in ranges, past the end of the reach nodes are worked out:
// those before it are interpolated between them and others.
const margin = 0.2

// reach returns 1 at one range of the covariance from the nearest station and
// 0 at two, and goes on so.
func (m *Model) reach(at *grid.Globe) float64 {
	nearest := math.Inf(1)
	for i := range m.at {
		nearest = min(nearest, at.Distance(&m.at[i]))
	}
	return 2 - nearest/m.Covariance.RangeKm
}

// finish adds what the air of the place says.
func (m *Model) finish(n *node, coldest units.Celsius) (soil.Offset, Trust) {
	o := coefficients{soil.DefaultOffset}
	t := Trust{Near: n.near}
	if n.near == 0 {
		return o.offset(), t
	}
	f := driftOf(coldest) // past the drift's columns beta, pull and inner are 0
	kriged := &n.smooth
	for k := range kriged {
		kriged[k] += float64(f[0]*m.beta[0][k]) + float64(f[1]*m.beta[1][k])
	}
	d0, d1 := f[0]-n.pull[0], f[1]-n.pull[1]
	t.Variance = n.variance + float64(d0*(float64(d0*m.inner[0][0])+float64(d1*(m.inner[0][1]+m.inner[1][0])))) + float64(d1*d1*m.inner[1][1])
	for k := range o {
		o[k] += float64(n.near * (kriged[k] - o[k]))
	}
	return o.offset(), t
}
