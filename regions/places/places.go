package places

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"weekband/grid"
)

// Place is a named position.
type Place struct {
	Name   string
	At     grid.LonLat
	Code   string // postal code or other short name; may be empty
	Region string // name or id of the region as the list gives it; may be empty
	Rank   int    // 1 for the largest places, which maps label first; 0 when not given
}

// worst bounds how many lines Decode complains about.
const worst = 20

// Decode reads a CSV list with a header line that names the columns name, lat
// and lon, and if wanted code, region and rank, in any order; other columns
// are ignored. Positions are degrees on WGS 84, north and east positive. name
// stands in messages. The error joins what is wrong with each line, at most
// 20 of them.
func Decode(r io.Reader, name string) ([]Place, error) {
	rows := csv.NewReader(r)
	rows.FieldsPerRecord = -1
	rows.TrimLeadingSpace = true
	head, err := rows.Read()
	if err == io.EOF {
		return nil, fmt.Errorf("%s: the file is empty; want a header line name,lat,lon", name)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	cols, err := columns(head)
	if err != nil {
		return nil, fmt.Errorf("%s:1: %w", name, err)
	}
	var list []Place
	var wrong []error
	for len(wrong) < worst {
		row, err := rows.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			wrong = append(wrong, fmt.Errorf("%s: %w", name, err))
			break
		}
		line, _ := rows.FieldPos(0)
		p, err := cols.place(row)
		if err != nil {
			wrong = append(wrong, fmt.Errorf("%s:%d: %w", name, line, err))
			continue
		}
		list = append(list, p)
	}
	return list, errors.Join(wrong...)
}

// layout holds the position of each column, -1 when absent.
type layout struct{ name, lat, lon, code, region, rank int }

func columns(head []string) (layout, error) {
	at := func(want string) int {
		return slices.IndexFunc(head, func(h string) bool {
			return strings.EqualFold(strings.TrimSpace(strings.TrimPrefix(h, "\ufeff")), want)
		})
	}
	l := layout{name: at("name"), lat: at("lat"), lon: at("lon"), code: at("code"), region: at("region"), rank: at("rank")}
	if l.name < 0 || l.lat < 0 || l.lon < 0 {
		return l, fmt.Errorf("header %q: want at least the columns name, lat and lon", strings.Join(head, ","))
	}
	return l, nil
}

func (l layout) place(row []string) (Place, error) {
	field := func(col int) string {
		if col < 0 || col >= len(row) {
			return ""
		}
		return strings.TrimSpace(row[col])
	}
	p := Place{Name: field(l.name), Code: field(l.code), Region: field(l.region)}
	if p.Name == "" {
		return p, errors.New("the place has no name")
	}
	var err error
	if p.At.Lat, err = degrees(field(l.lat), "lat", 90); err != nil {
		return p, fmt.Errorf("%s: %w", p.Name, err)
	}
	if p.At.Lon, err = degrees(field(l.lon), "lon", 180); err != nil {
		return p, fmt.Errorf("%s: %w", p.Name, err)
	}
	if text := field(l.rank); text != "" {
		if p.Rank, err = strconv.Atoi(text); err != nil || p.Rank < 0 {
			return p, fmt.Errorf("%s: rank %q: want a whole number, 1 for the largest places", p.Name, text)
		}
	}
	return p, nil
}

func degrees(text, column string, limit float64) (float64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !(v >= -limit && v <= limit) {
		return 0, fmt.Errorf("%s %q: want degrees from -%v to %v", column, text, limit, limit)
	}
	return v, nil
}
