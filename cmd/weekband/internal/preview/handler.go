package preview

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"net/url"
	"os"
	"strconv"
	"strings"

	"github.com/klauspost/compress/gzip"

	"weekband/cmd/weekband/internal/publish"
)

// policy is what pages of an edition may do: load scripts, styles, pictures and
// frames of their own, and nothing else. It is as strict as a host may be.
// frame-ancestors is not in it, so that embedding can be tried.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; frame-src 'self'; base-uri 'none'; form-action 'none'"

// Handler answers with the files of an edition. A build may replace the
// edition meanwhile; the next answer is from the new one.
type Handler struct{ folder string }

// NewHandler returns a handler for a folder, or an error when that holds no
// edition.
func NewHandler(folder string) (*Handler, error) {
	named := folder
	folder, _ = publish.Standing(named)
	info, err := os.Stat(folder)
	if err != nil {
		return nil, fmt.Errorf("edition: %w; name the folder of a build, such as out/demo", err)
	}
	if !info.IsDir() {
		return nil, fmt.Errorf("%s is a file: name the folder of a build, such as out/demo", folder)
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, fmt.Errorf("edition: %w", err)
	}
	defer root.Close()
	for _, name := range []string{publish.Marker, firstPage} {
		if info, err := root.Stat(name); err != nil || !info.Mode().IsRegular() {
			return nil, fmt.Errorf("%s is no edition, for it has no %s: name the folder of a build, such as out/demo", folder, name)
		}
	}
	return &Handler{folder: named}, nil
}

// ServeHTTP answers GET and HEAD for this machine's own names with a file,
// with the first page of a folder, or with 404.
func (h *Handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("X-Content-Type-Options", "nosniff")
	w.Header().Set("Content-Security-Policy", policy)
	w.Header().Set("Referrer-Policy", "no-referrer")
	w.Header().Set("Cache-Control", "no-cache") // may be kept, but asked for again
	switch {
	case !own(r.Host):
		refuse(w, http.StatusMisdirectedRequest, "this preview answers to the names of this machine only, such as 127.0.0.1")
		return
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		w.Header().Set("Allow", "GET, HEAD")
		refuse(w, http.StatusMethodNotAllowed, "this preview answers GET and HEAD only")
		return
	}
	folder, _ := publish.Standing(h.folder) // between the two steps of a build that cannot exchange names
	root, err := os.OpenRoot(folder)
	if err != nil {
		refuse(w, http.StatusNotFound, "the edition is not there now")
		return
	}
	defer root.Close()
	name, ok := within(r.URL)
	if !ok {
		notFound(w)
		return
	}
	h.answer(w, r, root, name)
}

// answer sends a file, or the first page of a folder.
func (h *Handler) answer(w http.ResponseWriter, r *http.Request, root *os.Root, name string) {
	asFolder := strings.HasSuffix(r.URL.Path, "/")
	info, err := root.Stat(name)
	if err == nil && info.IsDir() {
		info, err = root.Stat(firstPageOf(name))
		if err == nil && !asFolder { // links of a page go by its folder
			w.Header().Set("Location", (&url.URL{Path: "/" + name + "/", RawQuery: r.URL.RawQuery}).String())
			refuse(w, http.StatusMovedPermanently, "see the address with a slash at its end")
			return
		}
		name = firstPageOf(name)
	} else if asFolder {
		err = fs.ErrNotExist
	}
	if err != nil || !info.Mode().IsRegular() {
		notFound(w)
		return
	}
	f, err := root.Open(name)
	if err != nil {
		notFound(w)
		return
	}
	defer f.Close()
	if err := send(w, r, name, info, f); err != nil {
		refuse(w, http.StatusInternalServerError, "the file cannot be read")
	}
}

// send sends a file with its type and a tag of its size and time, by which
// browsers ask again; words are compressed for those that take that.
func send(w http.ResponseWriter, r *http.Request, name string, info fs.FileInfo, f io.ReadSeeker) error {
	kind, words := contentType(name)
	w.Header().Set("Content-Type", kind)
	tag := fmt.Sprintf("%x-%x", info.Size(), info.ModTime().UnixNano())
	if words {
		w.Header().Set("Vary", "Accept-Encoding")
	}
	if words && info.Size() >= leastCompressed && takesGzip(r.Header) {
		var b bytes.Buffer
		z := gzip.NewWriter(&b)
		if _, err := io.Copy(z, f); err != nil {
			return err
		}
		if err := z.Close(); err != nil {
			return err
		}
		w.Header().Set("Content-Encoding", "gzip")
		w.Header().Set("Content-Length", strconv.Itoa(b.Len())) // ServeContent leaves it out of what is encoded
		tag += "-gzip"
		f = bytes.NewReader(b.Bytes())
	}
	w.Header().Set("ETag", `"`+tag+`"`)
	http.ServeContent(w, r, "", info.ModTime(), f)
	return nil
}

// own reports whether a Host header names this machine: a page of another
// site that points a name of its own here is not answered.
func own(host string) bool {
	name, _, err := net.SplitHostPort(host)
	if err != nil {
		name = strings.TrimSuffix(strings.TrimPrefix(host, "["), "]")
	}
	if strings.EqualFold(name, "localhost") {
		return true
	}
	ip := net.ParseIP(name)
	return ip != nil && ip.IsLoopback()
}

func notFound(w http.ResponseWriter) {
	refuse(w, http.StatusNotFound, "there is no such file in this edition")
}

// refuse answers with a line of words.
func refuse(w http.ResponseWriter, code int, why string) {
	w.Header().Del("Content-Encoding")
	w.Header().Del("Content-Length")
	w.Header().Del("ETag")
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.WriteHeader(code)
	fmt.Fprintf(w, "%d %s: %s\n", code, http.StatusText(code), why)
}
