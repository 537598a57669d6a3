package asc

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"weekband/grid/source/frame"
)

// header is what stands before the values.
type header struct {
	seen   map[string]float64
	nodata string // as written, "" when absent
}

// defaultNoData is the value for missing cells where a header names none, by
// the format's description (Esri, "ASCII Raster").
const defaultNoData = -9999

var keys = map[string]string{
	"ncols": "ncols", "nrows": "nrows",
	"xllcorner": "xllcorner", "xllcenter": "xllcenter", "xllcentre": "xllcenter",
	"yllcorner": "yllcorner", "yllcenter": "yllcenter", "yllcentre": "yllcenter",
	"cellsize": "cellsize", "dx": "dx", "dy": "dy",
	"nodata_value": "nodata_value", "nodata": "nodata_value",
}

// Begins reports whether a file that begins so is an ASCII grid: with a word
// that some header begins with.
func Begins(head []byte) bool {
	word := bytes.ToLower(bytes.TrimLeft(head, " \t\r\n"))
	for _, key := range []string{"ncols", "nrows", "xll", "yll", "cellsize", "nodata", "dx", "dy"} {
		if bytes.HasPrefix(word, []byte(key)) {
			return true
		}
	}
	return false
}

// readHeader reads pairs of key and number until a value of the grid.
func readHeader(s *scanner) (header, error) {
	h := header{seen: map[string]float64{}}
	for {
		tok, at, err := s.next()
		if err != nil {
			return h, err
		}
		if len(tok) == 0 || !isKey(tok) {
			s.rewind(at)
			return h, nil
		}
		if err := h.pair(s, string(tok), at); err != nil {
			return h, err
		}
	}
}

func isKey(tok []byte) bool {
	c := tok[0] | 0x20
	return c >= 'a' && c <= 'z' && !isNaN(tok)
}

func (h *header) pair(s *scanner, word string, at int64) error {
	key, ok := keys[strings.ToLower(word)]
	if !ok {
		return s.errorAt(at, "header key %q is not known; want ncols, nrows, xllcorner or xllcenter, yllcorner or yllcenter, cellsize (or dx and dy), NODATA_value", word)
	}
	if _, twice := h.seen[key]; twice {
		return s.errorAt(at, "header key %s stands twice; want it once", key)
	}
	tok, vat, err := s.next()
	if err != nil {
		return err
	}
	text := string(tok)
	v, err := strconv.ParseFloat(text, 64)
	if key == "nodata_value" {
		h.nodata = text
		if math.IsInf(v, 0) || isNaN(tok) {
			err = nil // huge numbers overflow to infinity, which is missing anyway
		}
	} else if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
		err = strconv.ErrRange
	}
	if err != nil {
		return s.errorAt(vat, "%s is %q, which is not a number; want one such as -12.5%s", key, text, commaHint(tok))
	}
	h.seen[key] = v
	return nil
}

// frame turns the header into rows, columns and edges.
func (h header) frame() (f frame.Frame, err error) {
	if f.Cols, err = h.count("ncols"); err != nil {
		return f, err
	}
	if f.Rows, err = h.count("nrows"); err != nil {
		return f, err
	}
	if f.StepLon, err = h.step("dx"); err != nil {
		return f, err
	}
	if f.StepLat, err = h.step("dy"); err != nil {
		return f, err
	}
	if f.West, err = h.edge("xll", f.StepLon); err != nil {
		return f, err
	}
	south, err := h.edge("yll", f.StepLat)
	f.North = south + float64(float64(f.Rows)*f.StepLat)
	return f, err
}

func (h header) count(key string) (int, error) {
	v, ok := h.seen[key]
	if !ok {
		return 0, fmt.Errorf("the header has no %s; want a line with it", key)
	}
	if v < 1 || v > math.MaxInt32 || v != math.Trunc(v) {
		return 0, fmt.Errorf("%s is %g; want a whole number of at least 1", key, v)
	}
	return int(v), nil
}

// step returns the cell size along one axis: dx or dy, else cellsize.
func (h header) step(key string) (float64, error) {
	v, ok := h.seen[key]
	if !ok {
		key = "cellsize"
		v, ok = h.seen[key]
	}
	if !ok {
		return 0, errors.New("the header has no cellsize; want a line with it, or with dx and dy")
	}
	if v <= 0 {
		return 0, fmt.Errorf("%s is %g; want a positive number of degrees", key, v)
	}
	return v, nil
}

// edge returns the western or southern outer edge.
func (h header) edge(axis string, step float64) (float64, error) {
	corner, ok := h.seen[axis+"corner"]
	center, also := h.seen[axis+"center"]
	switch {
	case ok && also:
		return 0, fmt.Errorf("the header has both %scorner and %scenter; want one", axis, axis)
	case ok:
		return corner, nil
	case also:
		return center - step/2, nil
	}
	return 0, fmt.Errorf("the header has neither %scorner nor %scenter; want a line with one", axis, axis)
}
