package preview_test

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// lookAlikes are addresses that lead, or seem to lead, out of the folder or to
// what is hidden in it.
var lookAlikes = []string{
	"/../secret.txt", "/..", "/../", "/maps/../../secret.txt", "/./../secret.txt", "//../secret.txt", "/maps//../../secret.txt",
	"/%2e%2e/secret.txt", "/%2E%2E/secret.txt", "/.%2e/secret.txt", "/..%2fsecret.txt", "/..%2Fsecret.txt", "/%2e%2e%2fsecret.txt",
	"/..%5csecret.txt", "/..%5Csecret.txt", `/..\secret.txt`, `/maps\..\..\secret.txt`, "/..%255csecret.txt", "/%252e%252e/secret.txt",
	"/%c0%ae%c0%ae/secret.txt", "/%e0%80%ae%e0%80%ae/secret.txt", "/\u2024\u2024/secret.txt", "/\uff0e\uff0e/secret.txt", "/..\u2215secret.txt",
	"/..;/secret.txt", "/..%00/secret.txt", "/%00", "/index.html%00.png", "/.hidden", "/.git/config", "/%2egit/config", "/maps/.note", "/maps/%2enote",
	"/./index.html", "/maps/./spring.png", "//index.html", "/maps//spring.png", "/index.html/../index.html", "/out/secret.txt", "/link.txt", "/up/secret.txt",
	"/C:/secret.txt", "/index.html::$DATA", "/~/secret.txt", "/ ../secret.txt", "/.. /secret.txt", "/...", "/maps/", "/", "", "*", "maps", "///", "/\r\nX: y",
}

// linked is a small edition with links that lead out of it, and one that stays
// inside.
func linked(t testing.TB) string {
	t.Helper()
	out := small(t)
	for name, target := range map[string]string{"link.txt": "../secret.txt", "up": "..", "out": filepath.Dir(out), "inside.html": "index.html"} {
		if err := os.Symlink(target, filepath.Join(out, name)); err != nil {
			t.Skipf("no symbolic links here: %v", err)
		}
	}
	return out
}

// check asks for an address and complains when the answer tells what it must
// not, or is none that an address can have.
func check(t *testing.T, h http.Handler, u *url.URL) (code int) {
	t.Helper()
	w := httptest.NewRecorder()
	h.ServeHTTP(w, &http.Request{Method: "GET", URL: u, Host: "127.0.0.1", Header: http.Header{}})
	if strings.Contains(w.Body.String(), secret) {
		t.Errorf("%q tells the secret", u)
	}
	switch w.Code {
	case 200, 404:
	case 301:
		if to := w.Header().Get("Location"); !strings.HasPrefix(to, "/") || strings.HasPrefix(to, "//") || strings.ContainsAny(to, "\\\r\n") {
			t.Errorf("%q leads to %q", u, to)
		}
	default:
		t.Errorf("%q: %d", u, w.Code)
	}
	return w.Code
}

// Whatever is written in the path, decoded or not, and whatever links lie in
// the folder, nothing beside it and nothing hidden is sent.
func TestNobodyLeavesTheFolder(t *testing.T) {
	h := handler(t, linked(t))
	served := 0
	for _, path := range lookAlikes {
		if check(t, h, &url.URL{Path: path}) == 200 {
			served++
		}
		if u, err := url.ParseRequestURI(path); err == nil && check(t, h, u) == 200 && path != "/" {
			t.Errorf("%q was served", path)
		}
	}
	if served != 1 { // the first page
		t.Errorf("%d of the look-alikes were served", served)
	}
	if code := check(t, h, &url.URL{Path: "/inside.html"}); code != 200 {
		t.Errorf("a link that stays inside: %d", code)
	}
}

func FuzzPaths(f *testing.F) {
	for _, path := range lookAlikes {
		f.Add(path)
	}
	f.Add("/regions")
	h := handler(f, linked(f))
	f.Fuzz(func(t *testing.T, path string) {
		check(t, h, &url.URL{Path: path})
		if u, err := url.ParseRequestURI(path); err == nil {
			check(t, h, u)
		}
	})
}
