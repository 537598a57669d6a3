package convert

import (
	"context"
	"errors"
	"fmt"

	"weekband/grid/source"
	"weekband/grid/source/geotiff"
	"weekband/grid/source/netcdf"
)

// Wanted reports whether an error of grid/source says that the file is sound
// but of a kind that another tool may convert.
func Wanted(err error) bool {
	_, foreign := errors.AsType[*source.FormatError](err)
	return isHDF5(err) || isProjected(err) || foreign
}

func isHDF5(err error) bool {
	_, ok := errors.AsType[*netcdf.HDF5Error](err)
	return ok
}

func isProjected(err error) bool {
	_, ok := errors.AsType[*geotiff.ProjectedError](err)
	return ok
}

// rasterDrivers are the drivers of GDAL that may open a raster: formats of
// files alone, none that follows references or asks a server.
var rasterDrivers = []string{
	"GTiff", "netCDF", "HDF5", "GRIB", "HFA", "EHdr", "ENVI", "SAGA", "RRASTER", "GSBG", "GS7BG", "PCIDSK", "USGSDEM", "DTED", "SRTMHGT", "AAIGrid",
}

// Raster converts a raster that grid/source refused with cause, and says how,
// such as "to GeoTIFF by gdal_translate (GDAL 3.6.2)". variable is the one
// wanted of a NetCDF file, "" when not said. It returns an error that names
// the file, and what to install or to run, when the tool is missing or fails.
func (c *Converter) Raster(ctx context.Context, path, variable string, cause error) (copied, how string, err error) {
	copied, how, err = c.run(ctx, path, jobFor(variable, cause))
	if err != nil {
		return "", "", fmt.Errorf("%w\n    %w", cause, err)
	}
	l, err := source.Open(copied, source.Options{Variable: variable})
	if err == nil {
		return copied, how, l.Close()
	}
	if !isProjected(err) || isProjected(cause) {
		return copied, how, nil // the caller will find the same, and knows more
	}
	flat, then, err := c.run(ctx, copied, warp)
	if err != nil {
		return "", "", c.Restore(err)
	}
	return flat, how + ", then " + then, nil
}

// jobFor returns the conversion that helps against cause.
func jobFor(variable string, cause error) job {
	switch {
	case isProjected(cause):
		return warp
	case !isHDF5(cause):
		return translate
	case installed("nccopy") || !installed("gdal_translate"):
		return classic
	}
	return classicByGDAL(variable)
}

// classic keeps everything a NetCDF-4 file says.
var classic = job{
	tool: "nccopy", what: "NetCDF-4 to NetCDF classic", pkg: "netcdf-bin", ending: ".nc",
	args: func(in, out string) []string { return []string{"-k", "64-bit offset", in, out} },
}

func classicByGDAL(variable string) job {
	return job{
		tool: "gdal_translate", what: "NetCDF-4 to NetCDF classic", pkg: "netcdf-bin", ending: ".nc",
		args: func(in, out string) []string {
			if variable != "" {
				in = fmt.Sprintf("NETCDF:%q:%s", in, variable)
			}
			return []string{"-q", "-if", "netCDF", "-a_srs", "EPSG:4326", "-of", "netCDF", "-co", "FORMAT=NC", in, out}
		},
	}
}

var translate = job{
	tool: "gdal_translate", what: "to GeoTIFF", pkg: "gdal-bin", ending: ".tif",
	args: func(in, out string) []string {
		return append(onlyDrivers("-q", "-of", "GTiff"), in, out)
	},
}

// warp interpolates between cells. Corners of the new grid that lie off the
// old one are missing whether or not the file has a number for that: without
// being told, the tool writes 0 there.
var warp = job{
	tool: "gdalwarp", what: "to longitudes and latitudes", pkg: "gdal-bin", ending: ".tif",
	args: func(in, out string) []string {
		return append(onlyDrivers("-q", "-t_srs", "EPSG:4326", "-r", "bilinear", "-ot", "Float32", "-dstnodata", "nan", "-of", "GTiff"), in, out)
	},
}

func onlyDrivers(args ...string) []string {
	for _, d := range rasterDrivers {
		args = append(args, "-if", d)
	}
	return args
}
