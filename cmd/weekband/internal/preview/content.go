package preview

import (
	"net/http"
	"path"
	"strconv"
	"strings"

	"weekband/render/site"
)

// leastCompressed is the size in bytes from which words are compressed: what
// fits into one packet is not worth it.
const leastCompressed = 1024

// contentType returns the media type of a file, with the character set of
// words, and whether it is words, which compress well. Names without an ending
// are plain text, such as a licence; what is unknown is to be saved, not
// shown.
func contentType(name string) (kind string, words bool) {
	kind = site.MediaType(name)
	switch {
	case kind == "" && path.Ext(name) == "":
		kind = "text/plain"
	case kind == "":
		return "application/octet-stream", false
	}
	if strings.HasPrefix(kind, "text/") || kind == "application/xml" {
		return kind + "; charset=utf-8", true
	}
	switch kind {
	case "application/json", "application/geo+json", "image/svg+xml": // UTF-8 by definition, or as they say
		return kind, true
	}
	return kind, false
}

// takesGzip reports whether a request accepts gzip (RFC 9110, section
// 12.5.3): named, or by *, with a weight above 0.
func takesGzip(h http.Header) bool {
	named, any := -1.0, -1.0
	for coding := range strings.SplitSeq(strings.Join(h.Values("Accept-Encoding"), ","), ",") {
		name, rest, _ := strings.Cut(strings.ToLower(strings.TrimSpace(coding)), ";")
		weight := 1.0
		if text, found := strings.CutPrefix(strings.TrimSpace(rest), "q="); found {
			v, err := strconv.ParseFloat(text, 64)
			if err != nil {
				v = 0
			}
			weight = v
		}
		switch strings.TrimSpace(name) {
		case "gzip", "x-gzip":
			named = max(named, weight)
		case "*":
			any = max(any, weight)
		}
	}
	if named >= 0 {
		return named > 0
	}
	return any > 0
}
