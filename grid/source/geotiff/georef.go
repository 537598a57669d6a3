package geotiff

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"weekband/grid/source/frame"
)

// Keys of OGC 19-008r4.
const (
	keyModelType     = 1024
	keyRasterType    = 1025
	keyCitation      = 1026
	keyGeographic    = 2048
	keyPrimeMeridian = 2051
	keyAngularUnit   = 2054
	keyMeridianLon   = 2061
	keyProjected     = 3072
	keyProjCitation  = 3073
)

// ProjectedError says that the cells of a file lie on a projected plane and
// not on a grid of longitudes and latitudes.
type ProjectedError struct {
	Name     string // of the file
	EPSG     int    // code of the system, 0 or 32767 when user-defined
	Citation string // its name, "" when the file gives none
}

// Error names the system and says what to do.
func (e *ProjectedError) Error() string {
	system := "a projected reference system"
	if e.EPSG != 0 && e.EPSG != userDefined {
		system = fmt.Sprintf("the projected reference system EPSG:%d", e.EPSG)
	}
	if e.Citation != "" {
		system += " (" + e.Citation + ")"
	}
	return fmt.Sprintf("%s: the cells lie in %s; want longitudes and latitudes: convert with gdalwarp -t_srs EPSG:4326 -r bilinear", e.Name, system)
}

const userDefined = 32767

// geoKeys holds the keys of a page by number.
type geoKeys struct {
	short map[int]int
	real  map[int]float64
	text  map[int]string
}

func (s *stream) geoKeys(d directory) (geoKeys, error) {
	k := geoKeys{map[int]int{}, map[int]float64{}, map[int]string{}}
	raw, err := s.uints(d, tagGeoKeys)
	if err != nil || len(raw) < 4 {
		return k, err
	}
	reals, err := s.doubles(d, tagGeoDoubles)
	if err != nil {
		return k, err
	}
	text, err := s.text(d, tagGeoASCII)
	if err != nil {
		return k, err
	}
	for i := 4; i+4 <= len(raw); i += 4 {
		id, where, count, v := int(raw[i]), raw[i+1], int(raw[i+2]), int(raw[i+3])
		switch {
		case where == 0:
			k.short[id] = v
		case where == tagGeoDoubles && count > 0 && v >= 0 && v < len(reals):
			k.real[id] = reals[v]
		case where == tagGeoASCII && count >= 0 && v >= 0 && v <= len(text):
			k.text[id] = strings.TrimRight(text[v:min(len(text), v+count)], "|\x00")
		}
	}
	return k, nil
}

// georef is where a page lies and in what system.
type georef struct {
	frame frame.Frame
	crs   string
	note  string
}

// readGeoref returns where the cells of a page lie. ok is false when the page
// says nothing about it.
func (s *stream) readGeoref(d directory, p *page) (g georef, ok bool, err error) {
	keys, err := s.geoKeys(d)
	if err != nil {
		return g, false, err
	}
	shift := 0.0
	if keys.short[keyRasterType] == 2 { // PixelIsPoint: positions are those of centres
		shift = 0.5
	}
	if g.frame, g.note, ok, err = s.transform(d, p, shift); !ok || err != nil {
		return g, ok, err
	}
	g.crs, err = keys.system(s.name, g.frame)
	return g, true, err
}

// transform reads the affine placement. shift is added to pixel positions.
func (s *stream) transform(d directory, p *page, shift float64) (f frame.Frame, note string, ok bool, err error) {
	f.Rows, f.Cols = p.rows, p.cols
	scale, err := s.doubles(d, tagPixelScale)
	if err != nil {
		return f, "", false, err
	}
	ties, err := s.doubles(d, tagTiepoint)
	if err != nil {
		return f, "", false, err
	}
	m, err := s.doubles(d, tagTransformation)
	if err != nil {
		return f, "", false, err
	}
	var x0, y0, sx, sy float64 // of the outer corner of the first pixel; steps
	switch {
	case len(scale) >= 2 && len(ties) >= 6:
		sx, sy = scale[0], -math.Abs(scale[1])
		if scale[1] < 0 {
			note = "the pixel height is negative and was taken as positive"
		}
		x0, y0 = ties[3]-float64((ties[0]+shift)*sx), ties[4]-float64((ties[1]+shift)*sy)
	case len(m) >= 16:
		if math.Abs(m[1]) > math.Abs(m[0])*1e-9 || math.Abs(m[4]) > math.Abs(m[5])*1e-9 {
			return f, "", false, fmt.Errorf("%s: the raster is rotated or sheared; convert with gdalwarp -t_srs EPSG:4326", s.name)
		}
		sx, sy = m[0], m[5]
		x0, y0 = m[3]-float64(shift*sx), m[7]-float64(shift*sy)
	case len(ties) > 6:
		return f, "", false, fmt.Errorf("%s: placed by %d control points, not by a corner and steps; convert with gdalwarp -t_srs EPSG:4326", s.name, len(ties)/6)
	default:
		return f, "", false, nil
	}
	f.West, f.StepLon = x0, sx
	f.North, f.StepLat = y0, math.Abs(sy)
	if sy > 0 {
		f.SouthFirst = true
		f.North = y0 + float64(sy*float64(p.rows))
	}
	return f, note, true, nil
}

// system says in words which geographic system the keys give, or returns a
// *ProjectedError.
func (k geoKeys) system(name string, f frame.Frame) (string, error) {
	model, has := k.short[keyModelType]
	epsg := k.short[keyProjected]
	switch {
	case model == 1 || epsg != 0 && model != 2:
		return "", &ProjectedError{Name: name, EPSG: epsg, Citation: cmp.Or(k.text[keyProjCitation], k.text[keyCitation])}
	case model == 3:
		return "", fmt.Errorf("%s: the reference system is geocentric; want longitudes and latitudes", name)
	}
	if unit := k.short[keyAngularUnit]; unit != 0 && unit != 9102 && unit != 9122 { // EPSG: degree
		return "", fmt.Errorf("%s: the angular unit is EPSG:%d; want degrees (9102)", name, unit)
	}
	if m := k.short[keyPrimeMeridian]; m != 0 && m != 8901 && (m != userDefined || k.real[keyMeridianLon] != 0) { // EPSG: Greenwich
		return "", fmt.Errorf("%s: longitudes count from another prime meridian (EPSG:%d); want Greenwich; convert with gdalwarp -t_srs EPSG:4326", name, m)
	}
	if code := k.short[keyGeographic]; code != 0 && code != userDefined {
		return fmt.Sprintf("geographic, EPSG:%d", code), nil
	}
	if has {
		return "geographic, not named by a code", nil
	}
	south := f.North - float64(f.StepLat*float64(f.Rows))
	if f.West < -361 || f.West+float64(f.StepLon*float64(f.Cols)) > 541 || f.North > 91 || south < -91 {
		return "", fmt.Errorf("%s: no reference system is given, and edges at west %g, north %g are not longitudes and latitudes", name, f.West, f.North)
	}
	return "not given; taken for longitudes and latitudes", nil
}
