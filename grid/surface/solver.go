package surface

import "weekband/grid"

// network is what systems are made from: stations, what the drift knows of
// them, and their values less what was known beforehand.
type network struct {
	list   []Station
	places []grid.Globe
	index  index
	land   *Land // nil: position only
	covers []cover
	mean   cover // of the stations, for cells the land does not know
	slopes slopes
	z      [][months]float64
	k      int
}

// slopeSD is how far the slopes of one region lie from the slopes of all, as
// a standard deviation in square roots of the sill per unit of cover. The
// sill is near 1 K², so lapse rates vary by about 1 K/km: published monthly
// rates lie between 2.5 and 7.5 K/km (Minder, Mote & Lundquist 2010).
const slopeSD = 1.0

// precision returns the precisions of the drift terms in use.
func (n *network) precision() []float64 {
	p := []float64{0, 0, 0}
	if n.land != nil {
		p = append(p, 1/(slopeSD*slopeSD), 1/(slopeSD*slopeSD), 1/(slopeSD*slopeSD))
	}
	return p
}

// free counts the drift terms without anything known beforehand.
const free = 3

// point places a station or cell in the space of the covariance.
func (n *network) point(at grid.Globe, c *cover, cov *Covariance) point {
	p := point{at[0], at[1], at[2], 0}
	if n.land != nil {
		p[3] = c[0] * 1000 * cov.KmPerMetre
	}
	return p
}

// solver is a system and the memory to build it from.
type solver struct {
	system
	frame frame
	data  data
	c     []float64
}

// buildAt solves for the stations nearest to a place, without the one numbered
// skip (−1: all). The farthest are trusted less and less.
func (s *solver) buildAt(n *network, at grid.LonLat, skip int, cov Covariance) {
	s.frame = frameAt(at)
	near, reach := n.index.nearest(s.frame.at, n.k, skip)
	s.gather(n, near, &cov)
	if len(near) == n.k {
		for i, j := range near {
			s.data.trust[i] = taper(s.frame.at.Distance(&n.places[j]) / reach)
		}
	}
	s.build(cov, s.data, n.precision())
}

// gather collects the data of stations, all fully trusted, in the frame that
// is set.
func (s *solver) gather(n *network, near []int, cov *Covariance) {
	d := &s.data
	d.points, d.drift, d.values, d.trust = d.points[:0], d.drift[:0], d.values[:0], d.trust[:0]
	for _, i := range near {
		d.points = append(d.points, n.point(n.places[i], &n.covers[i], cov))
		d.drift = append(d.drift, s.frame.drift(&n.places[i], &n.covers[i]))
		d.values = append(d.values, n.z[i])
		d.trust = append(d.trust, 1)
	}
	if cap(s.c) < len(near) {
		s.c = make([]float64, len(near))
	}
}

// predict returns the estimates at a place and the error variance in units of
// the sill.
func (s *solver) predict(n *network, at *grid.Globe, c *cover) (est [months]float64, variance float64) {
	n.slopes.trend(c, &est)
	p := n.point(*at, c, &s.cov)
	f := s.frame.drift(at, c)
	s.estimate(&p, &f, s.c, 1, &est)
	return est, s.variance(&f, s.c)
}
