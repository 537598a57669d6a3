// Package geotiff reads and writes GeoTIFF rasters.
//
// It takes the bytes of a file and a name for messages and gives the frame
// of its cells and its numbers, rows at a time: classic TIFF and BigTIFF,
// either byte order, strips and tiles, whole numbers of 8 to 32 bits and
// floating point of 32 and 64, uncompressed or with deflate, LZW, PackBits or
// Zstandard, predictors 1 to 3, bands interleaved or apart, and stacks of
// pages. It writes rows as float32 or scaled int16 with deflate, beyond 4 GB as
// BigTIFF.
//
// Formats: TIFF 6.0 (1992), TIFF Technical Note 3 (floating-point
// predictor), OGC 19-008r4 GeoTIFF 1.1; tags 42112 and 42113 as GDAL's
// documentation of its GeoTIFF driver describes them.
//
// It never opens files and never knows what the numbers measure.
package geotiff
