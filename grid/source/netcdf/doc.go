// Package netcdf reads gridded variables of NetCDF classic files: CDF-1,
// CDF-2 (64-bit offsets) and CDF-5 (64-bit data), with the CF conventions
// for coordinates, packing and missing values.
//
// It takes the bytes of a file and a name for messages and gives the frame
// of a variable's cells and its numbers, rows at a time.
//
// Formats: the NetCDF Classic Format Specification of the NetCDF User's
// Guide, appendix B; Climate and Forecast conventions 1.11, chapters 2.5, 4,
// 5 and 8.
//
// It never opens files and never knows what the numbers measure. NetCDF-4
// files are HDF5 and are refused with an *HDF5Error.
package netcdf
