// Package convert hands files that weekband cannot read itself to
// general-purpose command line tools, when these are installed.
//
// It takes the path of a raster or of a file of polygons and gives the path of
// a converted copy in a temporary folder. It never writes beside the input,
// fetches nothing, and never knows what the file is for.
package convert

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"

	"weekband/grid/source"
	"weekband/grid/source/geotiff"
	"weekband/grid/source/netcdf"
)

// Converter holds the converted copies until it is closed. The zero value is
// ready.
type Converter struct {
	dir   string
	count int
}

// Close removes the copies.
func (c *Converter) Close() error {
	if c.dir == "" {
		return nil
	}
	return os.RemoveAll(c.dir)
}

// Wanted reports whether an error of grid/source says that the file is sound
// but of a kind that another tool may convert.
func Wanted(err error) bool {
	_, hdf5 := errors.AsType[*netcdf.HDF5Error](err)
	_, projected := errors.AsType[*geotiff.ProjectedError](err)
	_, foreign := errors.AsType[*source.FormatError](err)
	return hdf5 || projected || foreign
}

// rasterDrivers are the drivers of GDAL that may open a raster: formats of
// files alone, none that follows references or asks a server.
var rasterDrivers = []string{
	"GTiff", "netCDF", "HDF5", "GRIB", "HFA", "EHdr", "ENVI", "SAGA", "RRASTER", "GSBG", "GS7BG", "PCIDSK", "USGSDEM", "DTED", "SRTMHGT", "AAIGrid",
}

// Raster converts a raster that grid/source refused with cause, and says in a
// note what was done. variable is the one wanted of a NetCDF file, "" when
// not said. It returns an error that names the file, and what to install or to
// run, when the tool is missing or fails.
func (c *Converter) Raster(ctx context.Context, path, variable string, cause error) (copied, note string, err error) {
	base := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	if _, ok := errors.AsType[*netcdf.HDF5Error](cause); ok && installed("nccopy") {
		return c.run(ctx, path, base+".nc", job{
			tool: "nccopy", what: "NetCDF-4 to NetCDF classic",
			args: func(in, out string) []string { return []string{"-k", "64-bit offset", in, out} },
		})
	}
	j := job{tool: "gdal_translate", what: "to GeoTIFF", pkg: "gdal-bin", args: func(in, out string) []string {
		return append(append([]string{"-q", "-of", "GTiff"}, onlyDrivers()...), in, out)
	}}
	if _, ok := errors.AsType[*geotiff.ProjectedError](cause); ok {
		j = job{tool: "gdalwarp", what: "to longitudes and latitudes", pkg: "gdal-bin", args: func(in, out string) []string {
			return append(append([]string{"-q", "-t_srs", "EPSG:4326", "-r", "bilinear", "-of", "GTiff"}, onlyDrivers()...), in, out)
		}}
	}
	ending := ".tif"
	if _, ok := errors.AsType[*netcdf.HDF5Error](cause); ok {
		ending = ".nc"
		j = job{tool: j.tool, what: "NetCDF-4 to NetCDF classic", pkg: "netcdf-bin", args: func(in, out string) []string {
			if variable != "" {
				in = fmt.Sprintf("NETCDF:%q:%s", in, variable)
			}
			return []string{"-q", "-if", "netCDF", "-a_srs", "EPSG:4326", "-of", "netCDF", "-co", "FORMAT=NC", in, out}
		}}
	}
	copied, note, err = c.run(ctx, path, base+ending, j)
	if err != nil {
		return "", "", fmt.Errorf("%w\n    %w", cause, err)
	}
	return copied, note, nil
}

func onlyDrivers() (args []string) {
	for _, d := range rasterDrivers {
		args = append(args, "-if", d)
	}
	return args
}

// Polygons reports whether a file is a shapefile, a GeoPackage or a
// FlatGeobuf, by its first bytes: kinds that Vector converts.
func Polygons(path string) (bool, error) {
	f, err := os.Open(path)
	if err != nil {
		return false, err
	}
	defer f.Close()
	head := make([]byte, 16)
	n, err := io.ReadFull(f, head)
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) && !errors.Is(err, io.EOF) {
		return false, fmt.Errorf("%s: %w", path, err)
	}
	head = head[:n]
	for _, magic := range []string{"\x00\x00\x27\x0a", "SQLite format 3\x00", "fgb"} {
		if bytes.HasPrefix(head, []byte(magic)) {
			return true, nil
		}
	}
	return false, nil
}

// Vector converts a file of polygons to GeoJSON (RFC 7946). Errors are those
// of Raster.
func (c *Converter) Vector(ctx context.Context, path string) (copied, note string, err error) {
	base := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	return c.run(ctx, path, base+".geojson", job{
		tool: "ogr2ogr", what: "to GeoJSON", pkg: "gdal-bin",
		args: func(in, out string) []string {
			return []string{"-q", "-f", "GeoJSON", "-t_srs", "EPSG:4326", "-lco", "RFC7946=YES", out, in}
		},
	})
}

// job is one conversion.
type job struct {
	tool, what, pkg string
	args            func(in, out string) []string
}

// run runs a tool on a file.
func (c *Converter) run(ctx context.Context, path, name string, j job) (copied, note string, err error) {
	in, err := local(path)
	if err != nil {
		return "", "", err
	}
	if !installed(j.tool) {
		return "", "", fmt.Errorf("%s: the tool %s would convert it but is not installed: install the package %s (Debian's name), or convert the file and name the result in the recipe", path, j.tool, j.pkg)
	}
	out, err := c.place(name)
	if err != nil {
		return "", "", err
	}
	cmd := exec.CommandContext(ctx, j.tool, j.args(in, out)...)
	cmd.Env = append(os.Environ(), "GDAL_PAM_ENABLED=NO", "GDAL_SKIP=VRT HTTP WMS WCS WMTS") // no notes beside the input, no servers
	if text, err := cmd.CombinedOutput(); err != nil {
		if ctx.Err() != nil {
			return "", "", ctx.Err()
		}
		return "", "", fmt.Errorf("%s: %s could not convert it: %s", path, j.tool, brief(text, err))
	}
	return out, fmt.Sprintf("%s was converted %s by %s", filepath.Base(path), j.what, versionOf(j.tool)), nil
}

// local returns the absolute path of a plain file; names that tools would
// take for something else are refused.
func local(path string) (string, error) {
	if strings.HasPrefix(path, "/vsi") || strings.Contains(path, "://") {
		return "", fmt.Errorf("%s: want a plain file", path)
	}
	info, err := os.Stat(path)
	if err != nil {
		return "", err
	}
	if !info.Mode().IsRegular() {
		return "", fmt.Errorf("%s: not a regular file", path)
	}
	return filepath.Abs(path)
}

// place returns where the next copy goes: in a folder of its own, so that it
// keeps its name.
func (c *Converter) place(name string) (string, error) {
	if c.dir == "" {
		dir, err := os.MkdirTemp("", "weekband-convert-")
		if err != nil {
			return "", err
		}
		c.dir = dir
	}
	c.count++
	dir := filepath.Join(c.dir, strconv.Itoa(c.count))
	return filepath.Join(dir, name), os.Mkdir(dir, 0o700)
}

func installed(tool string) bool {
	_, err := exec.LookPath(tool)
	return err == nil
}

// brief returns what a tool said, in a line.
func brief(text []byte, err error) string {
	const most = 300
	words := strings.Join(strings.Fields(string(text)), " ")
	if words == "" {
		return err.Error()
	}
	if len(words) > most {
		words = strings.ToValidUTF8(words[:most], "") + " …"
	}
	return words
}

// versionOf returns a tool's name with its version where it tells one.
func versionOf(tool string) string {
	if tool == "nccopy" { // it has no option for that
		return tool
	}
	text, err := exec.Command(tool, "--version").Output()
	if err != nil {
		return tool
	}
	line, _, _ := strings.Cut(string(text), "\n")
	return fmt.Sprintf("%s (%s)", tool, strings.TrimSpace(line))
}
