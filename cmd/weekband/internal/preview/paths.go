package preview

import (
	"io/fs"
	"net/url"
	"path"
	"strings"
)

// firstPage is what a folder is shown by.
const firstPage = "index.html"

func firstPageOf(folder string) string { return path.Join(folder, firstPage) }

// within returns the name of the file or folder that an address means, "."
// for the edition's own, and false for one that no link of an edition has:
// with steps up or empty steps, slashes or backslashes written as codes,
// hidden names, control characters.
func within(u *url.URL) (name string, ok bool) {
	escaped := strings.ToLower(u.EscapedPath())
	if strings.Contains(escaped, "%2f") || strings.Contains(escaped, "%5c") {
		return "", false
	}
	if u.Path == "/" {
		return ".", true
	}
	name, slash := strings.CutPrefix(u.Path, "/")
	name = strings.TrimSuffix(name, "/")
	if !slash || name == "." || !fs.ValidPath(name) || strings.ContainsFunc(name, odd) {
		return "", false
	}
	for step := range strings.SplitSeq(name, "/") {
		if strings.HasPrefix(step, ".") {
			return "", false
		}
	}
	return name, true
}

// odd reports a character that is no part of a published file's name, or that
// some system takes for a step or a stream.
func odd(r rune) bool { return r < ' ' || r == 0x7f || r == '\\' || r == ':' }
