package output

// Names of files within an edition.
const (
	RegionsFile = "data/regions.geojson"
	TableCSV    = "tables/regions.csv"
	TableXLSX   = "tables/regions.xlsx"
	WorthFile   = "tables/worth.csv"
	CellsFile   = "tables/cells.csv.gz"
)

// GridFile names the grid of crossing days of a window.
func GridFile(window string) string { return "data/" + window + ".tif" }

// ErrorFile names the grid of their standard errors.
func ErrorFile(window string) string { return "data/" + window + "-error.tif" }

// BandsFile names the bands of a window.
func BandsFile(window string) string { return "data/bands-" + window + ".geojson" }
