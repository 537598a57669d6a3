package preview_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"weekband/cmd/weekband/internal/preview"
)

const secret = "nobody may read this"

var longText = strings.Repeat("Typical weeks of Carrow. ", 200)

// small is an edition in a folder that has a secret beside it.
func small(t testing.TB) string {
	t.Helper()
	parent := t.TempDir()
	write(t, filepath.Join(parent, "secret.txt"), secret)
	out := filepath.Join(parent, "vale")
	for name, text := range map[string]string{
		"manifest.json": "{}", "index.html": "<!doctype html>" + longText, "regions/carrow.html": "<p>Carrow",
		"regions/index.html": "<p>regions", "assets/style.css": longText, "assets/weekband.js": longText, "assets/LICENSE": longText,
		"data/lookup.json": longText, "data/regions.geojson": longText, "data/spring.tif": longText, "data/stations.txt": longText,
		"maps/spring.svg": longText, "maps/spring.png": longText, "maps/spring.pdf": longText, "weeks/spring.gif": longText,
		"tables/regions.csv": longText, "tables/regions.xlsx": longText, "tables/cells.csv.gz": longText,
		"calendars/carrow.ics": longText, "feed.xml": longText, "data/strange.bin": longText,
		".hidden": secret, ".git/config": secret, "maps/.note": secret,
	} {
		write(t, filepath.Join(out, filepath.FromSlash(name)), text)
	}
	return out
}

func write(t testing.TB, name, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func handler(t testing.TB, out string) http.Handler {
	t.Helper()
	h, err := preview.NewHandler(out)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// ask sends one request with pairs of header fields.
func ask(h http.Handler, method, path string, header ...string) *http.Response {
	r := httptest.NewRequest(method, path, nil)
	r.Host = "127.0.0.1:8080"
	for i := 0; i+1 < len(header); i += 2 {
		if header[i] == "Host" {
			r.Host = header[i+1]
		}
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func body(t testing.TB, r *http.Response) string {
	t.Helper()
	text, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// Types as registered with IANA, and the headers that a careful host sends.
func TestTypes(t *testing.T) {
	h := handler(t, small(t))
	for path, want := range map[string]string{
		"/": "text/html; charset=utf-8", "/index.html": "text/html; charset=utf-8", "/regions/carrow.html": "text/html; charset=utf-8",
		"/assets/style.css": "text/css; charset=utf-8", "/assets/weekband.js": "text/javascript; charset=utf-8", "/assets/LICENSE": "text/plain; charset=utf-8",
		"/data/lookup.json": "application/json", "/data/regions.geojson": "application/geo+json", "/data/spring.tif": "image/tiff",
		"/data/stations.txt": "text/plain; charset=utf-8", "/maps/spring.svg": "image/svg+xml", "/maps/spring.png": "image/png",
		"/maps/spring.pdf": "application/pdf", "/weeks/spring.gif": "image/gif", "/tables/regions.csv": "text/csv; charset=utf-8",
		"/tables/regions.xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", "/tables/cells.csv.gz": "application/gzip",
		"/calendars/carrow.ics": "text/calendar; charset=utf-8", "/feed.xml": "application/xml; charset=utf-8", "/data/strange.bin": "application/octet-stream",
	} {
		r := ask(h, "GET", path)
		if got := r.Header.Get("Content-Type"); r.StatusCode != 200 || got != want {
			t.Errorf("%s: %d, %q, want %q", path, r.StatusCode, got, want)
		}
		if r.Header.Get("X-Content-Type-Options") != "nosniff" || r.Header.Get("Cache-Control") != "no-cache" || r.Header.Get("ETag") == "" {
			t.Errorf("%s: header %v", path, r.Header)
		}
		policy := r.Header.Get("Content-Security-Policy")
		if !strings.HasPrefix(policy, "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; frame-src 'self';") || strings.Contains(policy, "unsafe") || strings.Contains(policy, "frame-ancestors") {
			t.Errorf("%s: policy %q", path, policy)
		}
	}
}

func TestCompressesWords(t *testing.T) {
	h := handler(t, small(t))
	for _, path := range []string{"/", "/assets/weekband.js", "/data/lookup.json", "/data/regions.geojson", "/maps/spring.svg", "/calendars/carrow.ics"} {
		r := ask(h, "GET", path, "Accept-Encoding", "br, gzip;q=0.5")
		packed := body(t, r)
		z, err := gzip.NewReader(strings.NewReader(packed))
		if err != nil || r.Header.Get("Content-Encoding") != "gzip" || r.Header.Get("Vary") != "Accept-Encoding" {
			t.Errorf("%s: %v, header %v", path, err, r.Header)
			continue
		}
		text, err := io.ReadAll(z)
		if err != nil || !strings.HasSuffix(string(text), longText) || r.Header.Get("Content-Length") != strconv.Itoa(len(packed)) || len(packed) > 500 {
			t.Errorf("%s: %d bytes packed, %d unpacked, %v", path, len(packed), len(text), err)
		}
		plain := ask(h, "GET", path)
		if plain.Header.Get("Content-Encoding") != "" || !strings.HasSuffix(body(t, plain), longText) || plain.Header.Get("ETag") == r.Header.Get("ETag") || plain.Header.Get("Vary") != "Accept-Encoding" {
			t.Errorf("%s plain: header %v", path, plain.Header)
		}
	}
	for path, accept := range map[string]string{
		"/maps/spring.png": "gzip", "/tables/cells.csv.gz": "gzip", "/tables/regions.xlsx": "gzip", "/regions/carrow.html": "gzip",
		"/": "gzip;q=0, *", "/index.html": "br", "/data/lookup.json": "identity", "/feed.xml": "gzip;q=x",
	} {
		if r := ask(h, "GET", path, "Accept-Encoding", accept); r.Header.Get("Content-Encoding") != "" {
			t.Errorf("%s for %q is sent as %q", path, accept, r.Header.Get("Content-Encoding"))
		}
	}
}

// A browser that has a file asks with its tag and gets no body again, until the
// file changes.
func TestAsksAgain(t *testing.T) {
	out := small(t)
	h := handler(t, out)
	for _, encoding := range []string{"", "gzip"} {
		tag := ask(h, "GET", "/", "Accept-Encoding", encoding).Header.Get("ETag")
		r := ask(h, "GET", "/", "Accept-Encoding", encoding, "If-None-Match", tag)
		if r.StatusCode != http.StatusNotModified || body(t, r) != "" || r.Header.Get("ETag") != tag {
			t.Errorf("%q: %d, header %v", encoding, r.StatusCode, r.Header)
		}
		name := filepath.Join(out, "index.html")
		write(t, name, "<p>changed"+longText+encoding)
		later := time.Now().Add(time.Hour)
		if err := os.Chtimes(name, later, later); err != nil {
			t.Fatal(err)
		}
		if r := ask(h, "GET", "/", "Accept-Encoding", encoding, "If-None-Match", tag); r.StatusCode != 200 {
			t.Errorf("%q: %d after a change", encoding, r.StatusCode)
		}
	}
}

func TestHeadAndParts(t *testing.T) {
	h := handler(t, small(t))
	r := ask(h, "HEAD", "/maps/spring.png")
	if r.StatusCode != 200 || r.ContentLength != int64(len(longText)) || body(t, r) != "" {
		t.Errorf("HEAD: %d, %d bytes", r.StatusCode, r.ContentLength)
	}
	r = ask(h, "GET", "/data/spring.tif", "Range", "bytes=8-14")
	if r.StatusCode != http.StatusPartialContent || body(t, r) != longText[8:15] {
		t.Errorf("a part: %d, header %v", r.StatusCode, r.Header)
	}
	whole := body(t, ask(h, "GET", "/feed.xml", "Accept-Encoding", "gzip"))
	r = ask(h, "GET", "/feed.xml", "Accept-Encoding", "gzip", "Range", "bytes=2-9")
	if r.StatusCode != http.StatusPartialContent || body(t, r) != whole[2:10] || r.Header.Get("Content-Length") != "8" {
		t.Errorf("a part of what is compressed: %d, header %v", r.StatusCode, r.Header)
	}
	r = ask(h, "GET", "/feed.xml", "Accept-Encoding", "gzip", "Range", "bytes=90000-")
	if r.StatusCode != http.StatusRequestedRangeNotSatisfiable || int(r.ContentLength) > 200 {
		t.Errorf("a part past the end: %d, header %v", r.StatusCode, r.Header)
	}
}

func TestFolders(t *testing.T) {
	h := handler(t, small(t))
	if r := ask(h, "GET", "/regions/"); r.StatusCode != 200 || body(t, r) != "<p>regions" {
		t.Errorf("first page of a folder: %d", r.StatusCode)
	}
	if r := ask(h, "GET", "/regions?place=a%20b"); r.StatusCode != http.StatusMovedPermanently || r.Header.Get("Location") != "/regions/?place=a%20b" {
		t.Errorf("folder without a slash: %d to %q", r.StatusCode, r.Header.Get("Location"))
	}
	for _, path := range []string{"/maps", "/maps/", "/data/", "/index.html/", "/nothing.html", "/regions/nothing/"} {
		r := ask(h, "GET", path)
		if text := body(t, r); r.StatusCode != 404 || !strings.HasPrefix(text, "404 Not Found: ") || strings.Contains(text, "spring") || r.Header.Get("Content-Type") != "text/plain; charset=utf-8" {
			t.Errorf("%s: %d, %q", path, r.StatusCode, text)
		}
	}
}

func TestOnlyReads(t *testing.T) {
	h := handler(t, small(t))
	for _, method := range []string{"POST", "PUT", "DELETE", "OPTIONS", "PATCH", "PROPFIND"} {
		if r := ask(h, method, "/"); r.StatusCode != http.StatusMethodNotAllowed || r.Header.Get("Allow") != "GET, HEAD" {
			t.Errorf("%s: %d", method, r.StatusCode)
		}
	}
}

// A page elsewhere whose name was pointed at this machine must not read the
// preview.
func TestOtherNamesAreRefused(t *testing.T) {
	h := handler(t, small(t))
	for host, want := range map[string]int{
		"127.0.0.1": 200, "127.0.0.1:41000": 200, "localhost:80": 200, "LOCALHOST": 200, "[::1]:80": 200, "[::1]": 200, "127.9.9.9": 200,
		"soil.example": 421, "soil.example:80": 421, "127.0.0.1.soil.example": 421, "localhost.soil.example": 421, "192.0.2.7": 421, "0.0.0.0": 421, "": 421, "127.0.0.1@soil.example": 421,
	} {
		r := ask(h, "GET", "/", "Host", host)
		if r.StatusCode != want {
			t.Errorf("host %q: %d, want %d", host, r.StatusCode, want)
		}
	}
}

func BenchmarkPage(b *testing.B) {
	out := small(b)
	write(b, filepath.Join(out, "index.html"), strings.Repeat(longText, 50))
	h := handler(b, out)
	var n bytes.Buffer
	for b.Loop() {
		r := ask(h, "GET", "/", "Accept-Encoding", "gzip")
		if _, err := n.ReadFrom(r.Body); err != nil {
			b.Fatal(err)
		}
		n.Reset()
	}
}
