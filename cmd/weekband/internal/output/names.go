package output

// Names of files within an edition; that of the manifest is publish.Marker.
const (
	RegionsFile = "data/regions.geojson" // polygons
	TableCSV    = "tables/regions.csv"   // weeks of regions
	TableXLSX   = "tables/regions.xlsx"  // the same
	WorthFile   = "tables/worth.csv"     // what being early or late costs in regions
	CellsFile   = "tables/cells.csv.gz"  // of all cells, unless they are too many
)

// GridFile names the grid of crossing days of a window.
func GridFile(window string) string { return "data/" + window + ".tif" }

// ErrorFile names the grid of their standard errors.
func ErrorFile(window string) string { return "data/" + window + "-error.tif" }

// BandsFile names the bands of a window.
func BandsFile(window string) string { return "data/bands-" + window + ".geojson" }

// CalendarFile names the calendar of a region by its slug.
func CalendarFile(slug string) string { return "calendars/" + slug + ".ics" }
