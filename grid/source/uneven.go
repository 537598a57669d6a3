package source

import (
	"fmt"
	"math"
	"slices"

	"weekband/grid/source/frame"
	"weekband/grid/source/netcdf"
)

// unevenness is how much the longest step between latitudes may exceed the
// shortest. Gaussian grids stay under 1.1; beyond this bound rows are missing.
const unevenness = 3

// unsteadiness is how much a step may exceed the one beside it. On Gaussian
// grids they differ by a hundredth; one missing row doubles a step.
const unsteadiness = 1.5

// evened reads rows of even latitudes out of a file whose latitudes are
// uneven, as those of a Gaussian grid are. A value is interpolated between the
// rows to its north and south, or taken from the nearer one where the farther
// has none; where the nearer has none there is none.
type evened struct {
	decoder
	cols int
	lats []float64 // of the file's rows, in its order
	want []float64 // of the even rows, in the same order
}

// even makes even rows, as many as the file has, with the outermost ones where
// the file has them. It returns the error when more than latitudes are uneven,
// or when these are uneven as no grid is.
func even(d decoder, uneven *netcdf.UnevenError) (*evened, frame.Frame, error) {
	lats := uneven.Lats
	n := len(lats)
	if !uneven.OnlyLat || n < 2 {
		return nil, frame.Frame{}, uneven
	}
	least, most, jump := math.Inf(1), 0.0, 1.0
	falling := lats[n-1] < lats[0]
	for i := 1; i < n; i++ {
		step := lats[i] - lats[i-1]
		if (step < 0) != falling || step == 0 {
			return nil, frame.Frame{}, uneven
		}
		least, most = min(least, math.Abs(step)), max(most, math.Abs(step))
		if i > 1 {
			ratio := step / (lats[i-1] - lats[i-2])
			jump = max(jump, ratio, 1/ratio)
		}
	}
	if most > unevenness*least || jump > unsteadiness {
		return nil, frame.Frame{}, fmt.Errorf("%w; steps from %.4g to %.4g degrees look like missing rows", uneven, least, most)
	}
	e := &evened{decoder: d, cols: len(uneven.Lons), lats: lats, want: make([]float64, n)}
	first, step := spacing(lats)
	for i := range e.want {
		e.want[i] = first + float64(step*float64(i))
	}
	dx := (uneven.Lons[len(uneven.Lons)-1] - uneven.Lons[0]) / float64(len(uneven.Lons)-1)
	return e, frame.Frame{
		West: uneven.Lons[0] - dx/2, StepLon: dx, StepLat: math.Abs(step), North: max(e.want[0], e.want[n-1]) + math.Abs(step)/2,
		Rows: n, Cols: e.cols, SouthFirst: !falling,
	}, nil
}

// spacing returns the first of the even latitudes and the signed step to the
// next. The outermost ones are the file's own, unless half a step beyond one
// lies past a pole: then the pole is the edge. A row centred on the pole stays
// there.
func spacing(lats []float64) (first, step float64) {
	n := len(lats)
	step = (lats[n-1] - lats[0]) / float64(n-1)
	edge := func(lat, out float64) float64 {
		if atPole := 90 - math.Abs(lat); atPole < math.Abs(step)/100 {
			return lat + out
		}
		return min(max(lat+out, -90), 90)
	}
	from, to := edge(lats[0], -step/2), edge(lats[n-1], step/2)
	if from == lats[0]-step/2 && to == lats[n-1]+step/2 {
		return lats[0], step
	}
	step = (to - from) / float64(n)
	return from + step/2, step
}

// note tells the user what was done to the rows.
func (e *evened) note() string {
	far := 0.0
	for i := range e.want {
		far = max(far, math.Abs(e.want[i]-e.lats[i]))
	}
	return fmt.Sprintf("latitudes are not evenly spaced (a Gaussian grid?): rows were interpolated to even ones, at most %.2g degrees away", far)
}

// Read fills vals and has with even rows.
func (e *evened) Read(layer, first, rows int, vals []float32, has []bool) error {
	low, _ := e.between(first)
	high, _ := e.between(first + rows - 1)
	count := min(high+1, len(e.lats)-1) - low + 1
	from, present := make([]float32, count*e.cols), make([]bool, count*e.cols)
	if err := e.decoder.Read(layer, low, count, from, present); err != nil {
		return err
	}
	for row := range rows {
		i, share := e.between(first + row)
		near := (i - low) * e.cols
		far := near
		if share > 0 {
			far += e.cols
		}
		if share > 0.5 {
			near, far, share = far, near, 1-share
		}
		for col := range e.cols {
			k := row*e.cols + col
			has[k], vals[k] = present[near+col], from[near+col]
			if has[k] && present[far+col] {
				vals[k] = float32(float64((1-share)*float64(from[near+col])) + float64(share*float64(from[far+col])))
			}
		}
	}
	return nil
}

// between returns the file's row at or before an even row, and how far towards
// the next one it lies, from 0 to 1.
func (e *evened) between(row int) (i int, share float64) {
	lat := e.want[row]
	n := len(e.lats)
	sign := 1.0
	if e.lats[n-1] < e.lats[0] {
		sign = -1
	}
	i, found := slices.BinarySearchFunc(e.lats, lat, func(a, b float64) int {
		switch d := sign * (a - b); {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	if found {
		return i, 0
	}
	i = min(max(i-1, 0), n-2)
	return i, min(max((lat-e.lats[i])/(e.lats[i+1]-e.lats[i]), 0), 1)
}
