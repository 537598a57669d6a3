package source

import (
	"weekband/grid"
)

// Layers is an open gridded data set: one or more layers on one Grid. Read
// may be called from several goroutines.
type Layers interface {
	// Grid returns the grid of all layers, row 0 north.
	Grid() grid.Grid
	// Count returns the number of layers, at least 1.
	Count() int
	// Read fills vals and has, each rows × columns long, with rows
	// [first, first+rows) of a layer, counted from 0. The numbers are the
	// file's own after its scale and offset. has is false, and the value 0,
	// where the file holds a missing value. It returns an error that names
	// file and place when the rows or the layer do not exist, or the file
	// cannot be decoded there.
	Read(layer, first, rows int, vals []float32, has []bool) error
	// Describe says what the file tells about itself, for messages.
	Describe() Description
	// Close closes the file. Layers are of no use then.
	Close() error
}

// Description says what a file tells about itself. Empty parts were not
// told.
type Description struct {
	Name      string   // of the file
	Format    string   // such as "GeoTIFF, float32"
	Variable  string   // name, NetCDF only
	LongName  string   // NetCDF only
	Unit      string   // as written
	Names     []string // of the layers; nil when none has one
	Months    []int    // 1 to 12 for every layer; nil when times are not known
	NoData    string   // as written
	CRS       string   // reference system in words
	BlockRows int      // rows decoded together: reading that many at a time is cheapest
	Notes     []string // what a user should know, such as columns left out
}

// Options set how files are read. The zero value is the default.
type Options struct {
	Variable   string // of a NetCDF file; "" takes the only one on a grid
	CacheBytes int64  // for decoded blocks of a GeoTIFF; 0 is 256 MB
}
