package polygons

import (
	"encoding/json"
	"fmt"
	"regexp"
)

// crsCode finds the code at the end of the name of a reference system, such
// as EPSG:4326, urn:ogc:def:crs:EPSG::4326 or urn:ogc:def:crs:OGC:1.3:CRS84.
var crsCode = regexp.MustCompile(`(?i)(?:OGC|EPSG)\W.*?(CRS84|CRS83|[0-9]+)$`)

// nearWGS84 are geographic reference systems within a metre or two of WGS 84:
// NAD 83, ETRS 89, GDA 94 and 2020, NZGD 2000, JGD 2000 and 2011 (EPSG
// Geodetic Parameter Dataset).
var nearWGS84 = map[string]bool{
	"CRS83": true, "4269": true, "4258": true, "4283": true, "7844": true, "4167": true, "4612": true, "6668": true,
}

// checkCRS reads the member "crs" of older files (GeoJSON 2008, 3; RFC 7946, 4
// took it away). One that is not WGS 84, nor close to it, is an error.
func checkCRS(raw json.RawMessage, name string, found *findings) error {
	var crs *struct {
		Properties struct{ Name string }
	}
	if len(raw) == 0 {
		return nil
	}
	if err := json.Unmarshal(raw, &crs); err != nil || crs != nil && crs.Properties.Name == "" {
		found.note("the member \"crs\" is %s, which names no reference system; positions were taken for WGS 84", excerpt(raw))
		return nil
	}
	if crs == nil { // null
		return nil
	}
	code := ""
	if m := crsCode.FindStringSubmatch(crs.Properties.Name); m != nil {
		code = m[1]
	}
	switch {
	case code == "4326" || code == "CRS84":
		return nil
	case nearWGS84[code]:
		found.note("positions are on %s and were taken for WGS 84, which is a metre or two off", crs.Properties.Name)
		return nil
	}
	return fmt.Errorf("%s: positions are on %q, by its member \"crs\"; want longitude and latitude on WGS 84 (RFC 7946, 4): reproject the file, such as with ogr2ogr -t_srs EPSG:4326",
		name, crs.Properties.Name)
}
