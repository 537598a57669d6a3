package netcdf

import (
	"slices"
)

// stacked are the numbers of variables that, alike in everything but their
// values, are taken for the layers of one data set: months, or days. General
// converters write one variable a band.
var stacked = []int{12, 365, 366}

// stack takes several variables for layers in the order of the file; ok is
// false when they are not alike or their number is another.
func (f *File) stack(vars []*variable) (ok bool, err error) {
	if !slices.Contains(stacked, len(vars)) {
		return false, nil
	}
	for _, v := range vars {
		if len(v.dims) != 2 || !slices.Equal(v.dims, vars[0].dims) || v.typ != vars[0].typ || v.attrs["units"].text != vars[0].attrs["units"].text {
			return false, nil
		}
	}
	var list []stackedLayer
	for _, v := range vars {
		if err := f.set(v, "lon", "lat"); err != nil {
			return false, err
		}
		list = append(list, stackedLayer{v: f.v, means: f.means})
	}
	if err := f.set(vars[0], "lon", "lat"); err != nil {
		return false, err
	}
	f.stacked, f.layers = list, len(list)
	return true, nil
}

// stackedLayer is a variable that stands for one layer.
type stackedLayer struct {
	v     *variable
	means meaning
}

// layer returns the variable that holds a layer, how its numbers are meant,
// and which layer of it that is.
func (f *File) layer(i int) (v *variable, means *meaning, of int) {
	if f.stacked == nil {
		return f.v, &f.means, i
	}
	return f.stacked[i].v, &f.stacked[i].means, 0
}
