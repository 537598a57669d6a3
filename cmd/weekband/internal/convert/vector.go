package convert

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// vectorKind is a kind of file with polygons that ogr2ogr converts.
type vectorKind struct {
	magic  string   // the first bytes, or for XML its first element
	beside []string // endings of the files that belong to it
}

var vectorKinds = []vectorKind{
	{"\x00\x00\x27\x0a", []string{".shx", ".dbf", ".prj", ".cpg"}},
	{"SQLite format 3\x00", nil},
	{"fgb", nil},
	{"<kml", nil},
}

// kindOf returns the kind of a file, nil when it is none of them.
func kindOf(path string) (*vectorKind, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	head := make([]byte, 4096) // a comment may stand before the first element
	n, err := io.ReadFull(f, head)
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	head = head[:n]
	xml := bytes.HasPrefix(bytes.TrimLeft(bytes.TrimPrefix(head, []byte("\xef\xbb\xbf")), " \t\r\n"), []byte("<"))
	for i, k := range vectorKinds {
		if bytes.HasPrefix(head, []byte(k.magic)) || xml && strings.HasPrefix(k.magic, "<") && bytes.Contains(head, []byte(k.magic)) {
			return &vectorKinds[i], nil
		}
	}
	return nil, nil
}

// Polygons reports whether a file is a shapefile, a GeoPackage, a FlatGeobuf
// or KML, by its first bytes: kinds that Vector converts.
func Polygons(path string) (bool, error) {
	k, err := kindOf(path)
	return k != nil, err
}

// headers are endings of files that describe a raster of bare numbers.
var headers = []string{".hdr", ".prj"}

// Beside returns the files that belong to a file, such as the table of a
// shapefile, if they are there.
func Beside(path string) []string {
	endings := headers
	if k, err := kindOf(path); err == nil && k != nil {
		endings = k.beside
	}
	var found []string
	stem := strings.TrimSuffix(path, filepath.Ext(path))
	for _, ending := range endings {
		for _, name := range []string{stem + ending, stem + strings.ToUpper(ending)} {
			if _, err := os.Stat(name); err == nil {
				found = append(found, name)
			}
		}
	}
	return found
}

// Vector converts a file of polygons to GeoJSON (RFC 7946), layer alone if it
// is named. Its results and errors are those of Raster.
func (c *Converter) Vector(ctx context.Context, path, layer string) (copied, how string, err error) {
	kind, err := kindOf(path)
	if err != nil {
		return "", "", err
	}
	if kind == nil {
		return "", "", fmt.Errorf("%s: of no kind of polygons that is converted", path)
	}
	return c.run(ctx, path, job{
		tool: "ogr2ogr", what: "to GeoJSON", pkg: "gdal-bin", ending: ".geojson",
		args: func(in, out string) []string {
			args := []string{"-q", "-f", "GeoJSON", "-t_srs", "EPSG:4326", "-lco", "RFC7946=YES", out, in}
			if layer != "" {
				args = append(args, layer)
			}
			return args
		},
	})
}
