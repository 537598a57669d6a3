package netcdf

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"weekband/grid/source/frame"
)

// axis is a coordinate variable of longitudes or latitudes.
type axis struct {
	name   string
	values []float64 // centres in degrees
	tol    float64   // rounding of the stored numbers, in degrees
}

// UnevenError says that the cells of a file do not follow each other in even
// steps, as in a Gaussian grid.
type UnevenError struct {
	Name       string    // of the file
	Axis       string    // name of the uneven coordinate variable
	Index      int       // where it departs most from even steps
	Lons, Lats []float64 // centres of the columns and rows, in the file's order
	OnlyLat    bool      // the longitudes are even and rise eastward
	off, step  float64
}

// Error names the axis and its largest departure.
func (e *UnevenError) Error() string {
	return fmt.Sprintf("%s: coordinate variable %s is not even: its value %d is %.3g degrees off steps of %.6g (a Gaussian grid?); resample to a regular longitude–latitude grid",
		e.Name, e.Axis, e.Index, e.off, e.step)
}

// role says which axis a coordinate variable is: "lon", "lat", "projected" or
// "". CF 4.1 and 4.2: by units, else by standard_name, axis or name.
func (v *variable) role() string {
	units := strings.ToLower(v.attrs["units"].text)
	switch units {
	case "degrees_north", "degree_north", "degree_n", "degrees_n", "degreen", "degreesn":
		return "lat"
	case "degrees_east", "degree_east", "degree_e", "degrees_e", "degreee", "degreese":
		return "lon"
	}
	standard := v.attrs["standard_name"].text
	switch standard {
	case "latitude":
		return "lat"
	case "longitude":
		return "lon"
	case "projection_x_coordinate", "projection_y_coordinate", "grid_latitude", "grid_longitude":
		return "projected"
	}
	if units != "" && units != "degrees" && units != "degree" {
		return ""
	}
	name := strings.ToLower(v.name)
	switch {
	case v.attrs["axis"].text == "Y", name == "lat", name == "latitude":
		return "lat"
	case v.attrs["axis"].text == "X", name == "lon", name == "longitude":
		return "lon"
	}
	return ""
}

// coordinate returns the coordinate variable of a dimension: the one of its
// name (NUG 2.3.1); nil when there is none.
func (h *header) coordinate(dim int) *variable {
	for i := range h.vars {
		v := &h.vars[i]
		if v.name == h.dims[dim].name && len(v.dims) == 1 && v.dims[0] == dim && v.typ != typChar {
			return v
		}
	}
	return nil
}

// numbers returns all values of a one-dimensional variable.
func (f *File) numbers(v *variable) ([]float64, error) {
	n := f.h.dims[v.dims[0]].length
	size := v.typ.size()
	if n > f.size/size {
		return nil, fmt.Errorf("%s: coordinate variable %q has %d values; the file has only %d bytes", f.name, v.name, n, f.size)
	}
	out := make([]float64, n)
	b := make([]byte, size)
	if !v.record {
		b = make([]byte, n*size)
	}
	for i := int64(0); i < n; {
		rec := int64(0)
		if v.record {
			rec = i
		}
		at, err := f.h.place(v, rec, 0, int64(len(b)), f.size)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.name, err)
		}
		if _, err := f.r.ReadAt(b, at); err != nil && !errors.Is(err, io.EOF) {
			return nil, fmt.Errorf("%s: %s: %w", f.name, v.name, err)
		}
		for k := int64(0); k < int64(len(b)); k, i = k+size, i+1 {
			out[i] = number(v.typ, b[k:])
		}
	}
	m := newMeaning(v)
	for i := range out {
		if m.scaled {
			out[i] = float64(out[i]*m.scale) + m.offset
		}
		if math.IsNaN(out[i]) || math.IsInf(out[i], 0) {
			return nil, fmt.Errorf("%s: coordinate variable %q: value %d is not a finite number", f.name, v.name, i)
		}
	}
	return out, nil
}

func (f *File) axis(v *variable) (axis, error) {
	vals, err := f.numbers(v)
	if err != nil {
		return axis{}, err
	}
	a := axis{name: v.name, values: vals}
	if len(vals) < 2 {
		return a, fmt.Errorf("%s: coordinate variable %q has %d value; at least 2 are needed to know the size of a cell", f.name, v.name, len(vals))
	}
	if v.typ == typFloat {
		for _, x := range vals {
			a.tol = max(a.tol, math.Abs(x)/(1<<23))
		}
	}
	return a, nil
}

// tolEven is how far, in steps, a coordinate may lie from even steps. Printed
// coordinates are off by up to 0.0012 steps (four decimals of 1/24 degree);
// Gaussian latitudes by 0.008 and more (zeros of the Bessel function J0).
const tolEven = 0.0025

// even returns the signed step of an axis, and the place and size of the
// largest departure if that is too much.
func (a axis) even() (step float64, worst int, off float64, ok bool) {
	n := len(a.values)
	step = (a.values[n-1] - a.values[0]) / float64(n-1)
	for i, v := range a.values {
		if d := math.Abs(v - (a.values[0] + float64(float64(i)*step))); d > off {
			worst, off = i, d
		}
	}
	return step, worst, off, step != 0 && off <= float64(tolEven*math.Abs(step))+a.tol
}

// unwrap lets longitudes that start again from the west go on past 360.
func (a axis) unwrap() {
	turn := 0.0
	for i := 1; i < len(a.values); i++ {
		a.values[i] += turn
		if a.values[i-1]-a.values[i] > 180 {
			a.values[i] += 360
			turn += 360
		}
	}
}

// makeFrame turns the two axes into edges and steps.
func (f *File) makeFrame() (frame.Frame, error) {
	uneven := func(a axis, i int, off, step float64, onlyLat bool) error {
		return &UnevenError{Name: f.name, Axis: a.name, Index: i, Lons: f.lon.values, Lats: f.lat.values, OnlyLat: onlyLat, off: off, step: step}
	}
	dx, i, off, ok := f.lon.even()
	if !ok {
		return frame.Frame{}, uneven(f.lon, i, off, dx, false)
	}
	dy, i, off, ok := f.lat.even()
	if !ok {
		return frame.Frame{}, uneven(f.lat, i, off, dy, dx > 0)
	}
	if dx < 0 {
		return frame.Frame{}, fmt.Errorf("%s: longitudes (%s) fall from %g to %g; want them rising eastward", f.name, f.lon.name, f.lon.values[0], f.lon.values[len(f.lon.values)-1])
	}
	out := frame.Frame{
		West: f.lon.values[0] - dx/2, StepLon: dx, StepLat: math.Abs(dy),
		North: max(f.lat.values[0], f.lat.values[len(f.lat.values)-1]) + math.Abs(dy)/2,
		Rows:  len(f.lat.values), Cols: len(f.lon.values), SouthFirst: dy > 0,
	}
	return out, nil
}
