package surface

// slopes are what is known of the drift beforehand: for every month the mean
// change with each part of the cover, K per unit.
type slopes [len(cover{})][months]float64

// trend adds the slopes' part of a place to sum.
func (s *slopes) trend(c *cover, sum *[months]float64) {
	for q := range c {
		for m := range sum {
			sum[m] += float64(c[q] * s[q][m])
		}
	}
}

// What is expected of slopes before any station is seen. It decides where
// stations are few or lie at one height, and is nothing beside hundreds.
const (
	// usualLapse is the change of mean temperature with height, K/km: between
	// the annual 3.9 to 5.2 of a wet range (Minder, Mote & Lundquist 2010) and
	// the 6.5 of the standard atmosphere (ISO 2533).
	usualLapse = -5.5
	// usualSD is how far slopes may lie from that, K per unit of cover.
	usualSD = 1.5
	// usualVariance is that of the difference between two neighbours which the
	// slopes do not explain, K², twice nugget and sill of a national network.
	usualVariance = 1.5
	// usualCount is how many stations it counts for.
	usualCount = 10
)

// usual returns the slopes expected of a quantity.
func usual(q Quantity) (s slopes) {
	if q == Means {
		for m := range months {
			s[0][m] = usualLapse
		}
	}
	return s
}

// partners is how many neighbours every station is compared with.
const partners = 8

// differences are the normal equations of the slopes: one unknown for each
// drift term but the constant, one right-hand side a month.
type differences struct {
	normal factor
	right  [months][terms - 1]float64
	square float64 // sum of the squared differences, mean over the months
}

// slopesOf fits the slopes to the differences between every station and its
// nearest, by least squares in east, north and the cover, tempered by what is
// usual: differences do not see the large-scale pattern, whatever its form.
func (n *network) slopesOf(q Quantity) slopes {
	d := differences{normal: factor{n: terms - 1, l: make([]float64, packed(terms-1))}}
	start := usual(q)
	for i := range n.list {
		n.compare(i, &start, &d)
	}
	// The differences of one station share its own error: together they count
	// as one, so what is usual weighs as much as that many more.
	stations := max(0, float64(len(n.list)-(terms-1)))
	variance := (d.unexplained()/partners + usualCount*usualVariance) / (stations + usualCount)
	for p := range n.covers[0] {
		d.normal.row(p + 2)[p+2] += partners * variance / (usualSD * usualSD)
	}
	d.normal.decompose()
	for m := range months {
		b := d.right[m]
		d.normal.forward(b[:])
		d.normal.backward(b[:])
		for q := range start {
			start[q][m] += b[q+2]
		}
	}
	return start
}

// compare adds the differences between a station and its nearest, less the
// slopes already taken off.
func (n *network) compare(i int, known *slopes, d *differences) {
	f := frameAt(n.list[i].At)
	own := f.drift(&n.places[i], &n.covers[i])
	near, _ := n.index.nearest(n.places[i], partners, i)
	for _, j := range near {
		t := f.drift(&n.places[j], &n.covers[j])
		var apart cover
		for p := range apart {
			apart[p] = n.covers[j][p] - n.covers[i][p]
		}
		var expected [months]float64
		known.trend(&apart, &expected)
		for p := range d.normal.n {
			t[p+1] -= own[p+1]
			row := d.normal.row(p)
			for q := range p + 1 {
				row[q] += float64(t[p+1] * t[q+1])
			}
		}
		for m := range months {
			dz := n.z[j][m] - n.z[i][m] - expected[m]
			d.square += dz * dz / months
			for p := range d.normal.n {
				d.right[m][p] += float64(t[p+1] * dz)
			}
		}
	}
}

// unexplained returns the sum of squares that the best slopes leave, mean over
// the months.
func (d *differences) unexplained() float64 {
	free := factor{n: d.normal.n, l: append([]float64(nil), d.normal.l...)}
	free.decompose()
	left := d.square
	for m := range months {
		b := d.right[m]
		free.forward(b[:])
		left -= dot(b[:], b[:]) / months
	}
	return max(left, 0)
}
