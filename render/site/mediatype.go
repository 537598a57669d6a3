package site

import "strings"

// mediaTypes are the registered media types of what an edition holds, the
// longer of two endings first.
var mediaTypes = []struct{ ending, name string }{
	{".csv.gz", "application/gzip"},
	{".css", "text/css"},
	{".csv", "text/csv"},
	{".geojson", "application/geo+json"}, // RFC 7946, section 12
	{".gif", "image/gif"},
	{".html", "text/html"},
	{".ics", "text/calendar"}, // RFC 5545, section 8.1
	{".jpg", "image/jpeg"},
	{".js", "text/javascript"}, // RFC 9239
	{".json", "application/json"},
	{".pdf", "application/pdf"},
	{".png", "image/png"},
	{".svg", "image/svg+xml"},
	{".tif", "image/tiff"},
	{".txt", "text/plain"},
	{".xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"},
	{".xml", "application/xml"},
}

// MediaType returns the media type of a file of an edition by the end of its
// name, without a parameter; "" when none is known.
func MediaType(name string) string {
	for _, t := range mediaTypes {
		if strings.HasSuffix(name, t.ending) {
			return t.name
		}
	}
	return ""
}
