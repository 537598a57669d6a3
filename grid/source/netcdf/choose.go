package netcdf

import (
	"fmt"
	"slices"
	"strings"
)

// choose finds the variable to read: the named one, or the only one on
// longitudes and latitudes.
func (f *File) choose(name string) error {
	var fits []*variable
	var projected string
	for i := range f.h.vars {
		v := &f.h.vars[i]
		x, y := f.roles(v)
		if x == "projected" || y == "projected" {
			projected = v.name
		}
		if name != "" && v.name == name {
			return f.set(v, x, y)
		}
		if y == "lat" && x == "lon" && v.typ != typChar {
			fits = append(fits, v)
		}
	}
	switch {
	case name != "":
		return fmt.Errorf("%s: no variable %q; the file has %s", f.name, name, f.list(f.all()))
	case len(fits) == 1:
		return f.set(fits[0], "lon", "lat")
	case len(fits) > 1:
		if ok, err := f.stack(fits); ok || err != nil {
			return err
		}
		return fmt.Errorf("%s: several variables could be meant; name one of %s", f.name, f.list(fits))
	case projected != "":
		return fmt.Errorf("%s: variable %q lies on projected coordinates; want longitudes and latitudes: convert with gdalwarp -t_srs EPSG:4326", f.name, projected)
	}
	return fmt.Errorf("%s: no variable whose last two dimensions are latitude and longitude; the file has %s", f.name, f.list(f.all()))
}

func (f *File) all() (vars []*variable) {
	for i := range f.h.vars {
		vars = append(vars, &f.h.vars[i])
	}
	return vars
}

// roles returns the roles of a variable's last and last but one dimensions.
func (f *File) roles(v *variable) (x, y string) {
	n := len(v.dims)
	if n < 2 {
		return "", ""
	}
	if c := f.h.coordinate(v.dims[n-1]); c != nil {
		x = c.role()
	}
	if c := f.h.coordinate(v.dims[n-2]); c != nil {
		y = c.role()
	}
	return x, y
}

// list describes variables for messages: name(dimensions), with units.
func (f *File) list(vars []*variable) string {
	const most = 12
	var words []string
	for _, v := range vars {
		var dims []string
		for _, d := range v.dims {
			dims = append(dims, fmt.Sprintf("%s=%d", f.h.dims[d].name, f.h.dims[d].length))
		}
		w := v.name + "(" + strings.Join(dims, ", ") + ")"
		if u := v.attrs["units"].text; u != "" {
			w += " in " + u
		}
		words = append(words, w)
	}
	if len(words) > most {
		words = append(words[:most], fmt.Sprintf("and %d more", len(words)-most))
	}
	if len(words) == 0 {
		return "none"
	}
	return strings.Join(words, ", ")
}

// set takes a variable whose last dimensions have roles x and y.
func (f *File) set(v *variable, x, y string) (err error) {
	n := len(v.dims)
	switch {
	case x == "projected" || y == "projected":
		return f.refuse(v, " lies on projected coordinates; want longitudes and latitudes: convert with gdalwarp -t_srs EPSG:4326")
	case x != "lon" || y != "lat":
		return f.refuse(v, ": its last two dimensions must be latitude and longitude, each with a coordinate variable of that name; rearrange the file")
	case v.typ == typChar:
		return f.refuse(v, " holds text")
	case f.h.dims[v.dims[n-2]].record:
		return f.refuse(v, ": latitudes count records; want them as a dimension of fixed length; rearrange the file")
	}
	if f.lat, err = f.axis(f.h.coordinate(v.dims[n-2])); err != nil {
		return err
	}
	if f.lon, err = f.axis(f.h.coordinate(v.dims[n-1])); err != nil {
		return err
	}
	f.lon.unwrap()
	f.v, f.means = v, newMeaning(v)
	return f.setLayers()
}

// refuse says why a variable cannot be read.
func (f *File) refuse(v *variable, why string) error {
	return fmt.Errorf("%s: variable %s%s", f.name, f.list([]*variable{v}), why)
}

// setLayers finds out which dimension of the variable counts layers, and that
// all of them are in the file.
func (f *File) setLayers() error {
	v, n := f.v, len(f.v.dims)
	f.layers, f.layerDim, f.stride = 1, -1, 0
	stride := f.h.dims[v.dims[n-1]].length * f.h.dims[v.dims[n-2]].length
	for i, d := range slices.Backward(v.dims[:n-2]) {
		length := f.h.dims[d].length
		if length > 1 && f.layerDim >= 0 {
			return f.refuse(v, " has more than one dimension beside latitude and longitude; cut out one level first")
		}
		if length != 1 {
			f.layers, f.layerDim, f.stride = int(length), i, stride
		}
		if !f.h.dims[d].record {
			stride *= length
		}
	}
	if f.layers < 1 {
		return f.refuse(v, " has no layers: the file was never filled, or is cut short")
	}
	last, first := f.position(f.layers-1, 0)
	cells := int64(len(f.lat.values)) * int64(len(f.lon.values))
	if _, err := f.h.place(v, last, first, cells*v.typ.size(), f.size); err != nil {
		return fmt.Errorf("%s: %w", f.name, err)
	}
	return nil
}

// position returns the record and, within it, the element where a row of a
// layer begins.
func (f *File) position(layer, row int) (rec, first int64) {
	first = int64(row) * int64(len(f.lon.values))
	if f.layerDim >= 0 && f.h.dims[f.v.dims[f.layerDim]].record {
		return int64(layer), first
	}
	return 0, first + int64(layer)*f.stride
}
