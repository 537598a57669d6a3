package press

// cluster is a set of colours, at least one, and how to part it.
type cluster struct {
	tints    []tint
	mean     rgb     // by weight
	spread   float64 // sum of squares about the mean, by weight
	atMean   cut     // in the channel with the largest part of it
	extent   int     // from the least to the most in the widest channel
	atMiddle cut     // of that channel
}

// cut parts colours by a channel: those with at most so much of it from those
// with more.
type cut struct{ channel, most int }

// clustersOf parts colours until there are most clusters or each is of one
// colour: first until there are byMass where they spread most, so that many
// pixels move little, and then where they reach farthest, so that none moves
// far. No cluster is empty.
func clustersOf(tints []tint, byMass, most int) []cluster {
	if len(tints) == 0 || most < 1 {
		return nil
	}
	clusters := []cluster{newCluster(tints)}
	for len(clusters) < most {
		mass := len(clusters) < byMass
		at := worst(clusters, mass)
		c := clusters[at]
		if c.extent == 0 {
			break
		}
		where := c.atMiddle
		if mass {
			where = c.atMean
		}
		low, high := c.part(where)
		clusters[at] = newCluster(low)
		clusters = append(clusters, newCluster(high))
	}
	return clusters
}

// worst returns the place of the cluster that spreads most or reaches
// farthest, the first of several.
func worst(clusters []cluster, mass bool) int {
	at := 0
	for i := range clusters {
		c, w := &clusters[i], &clusters[at]
		if mass && c.spread > w.spread || !mass && c.extent > w.extent {
			at = i
		}
	}
	return at
}

// newCluster measures colours. Its sums are whole numbers, so that every
// machine finds the same; its cuts leave something on both sides wherever the
// colours differ.
func newCluster(tints []tint) cluster {
	c := cluster{tints: tints}
	weight := 0
	for _, t := range tints {
		weight += t.weight
	}
	var sums [3]int
	widest := -1.0
	for k := range sums {
		squares, low, high := 0, 255, 0
		for _, t := range tints {
			v := t.channel(k)
			sums[k] += t.weight * v
			squares += t.weight * v * v
			low, high = min(low, v), max(high, v)
		}
		if high == low {
			continue
		}
		s := float64(sums[k])
		spread := float64(squares) - float64(s/float64(weight)*s) // rounded before it is taken off, on every machine
		c.spread += spread
		if spread > widest {
			widest, c.atMean = spread, cut{k, min(sums[k]/weight, high-1)}
		}
		if high-low > c.extent {
			c.extent, c.atMiddle = high-low, cut{k, (low + high) / 2}
		}
	}
	c.mean = meanOf(sums, weight)
	return c
}

// part returns the colours on both sides of a cut.
func (c cluster) part(at cut) (low, high []tint) {
	for _, t := range c.tints {
		if t.channel(at.channel) <= at.most {
			low = append(low, t)
		} else {
			high = append(high, t)
		}
	}
	return low, high
}
