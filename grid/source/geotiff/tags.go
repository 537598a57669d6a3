package geotiff

// Tags of TIFF 6.0, of OGC 19-008r4 (33550 on) and of GDAL (42112, 42113).
const (
	tagNewSubfileType   = 254
	tagImageWidth       = 256
	tagImageLength      = 257
	tagBitsPerSample    = 258
	tagCompression      = 259
	tagPhotometric      = 262
	tagFillOrder        = 266
	tagImageDescription = 270
	tagStripOffsets     = 273
	tagSamplesPerPixel  = 277
	tagRowsPerStrip     = 278
	tagStripByteCounts  = 279
	tagPlanarConfig     = 284
	tagPredictor        = 317
	tagTileWidth        = 322
	tagTileLength       = 323
	tagTileOffsets      = 324
	tagTileByteCounts   = 325
	tagExtraSamples     = 338
	tagSampleFormat     = 339
	tagPixelScale       = 33550
	tagTiepoint         = 33922
	tagTransformation   = 34264
	tagGeoKeys          = 34735
	tagGeoDoubles       = 34736
	tagGeoASCII         = 34737
	tagMetadata         = 42112
	tagNoData           = 42113
)
