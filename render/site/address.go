package site

import (
	"net/url"
	"path"
	"strings"
)

// Under returns the address of a file of an edition, given that of its pages,
// with or without a slash or a page such as index.html at its end; "" for no
// or an unreadable address. A query and a fragment are dropped. file is a path
// with slashes; "" is the first page.
func Under(address, file string) string {
	u, err := url.Parse(address)
	if err != nil || u.Host == "" {
		return ""
	}
	folder := u.Path
	if last := path.Base(folder); strings.HasSuffix(last, ".html") || strings.HasSuffix(last, ".htm") {
		folder = strings.TrimSuffix(folder, last)
	}
	out := url.URL{Scheme: strings.ToLower(u.Scheme), Host: strings.ToLower(u.Host), Path: strings.TrimSuffix(folder, "/") + "/" + file}
	return out.String()
}
