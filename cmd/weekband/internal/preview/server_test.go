package preview_test

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"weekband/cmd/weekband/internal/preview"
)

// serving starts a server for a folder; end ends it and returns what Serve
// returned.
func serving(t *testing.T, out string) (address string, end func() error) {
	t.Helper()
	s, err := preview.Listen(out, 0)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(ctx) }()
	t.Cleanup(stop)
	return s.Address(), func() error { stop(); return <-ended }
}

func TestServesOnLoopback(t *testing.T) {
	address, end := serving(t, small(t))
	if !strings.HasPrefix(address, "http://127.0.0.1:") || strings.HasSuffix(address, ":0/") {
		t.Fatalf("address %s", address)
	}
	r, err := http.Get(address + "regions/carrow.html")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	if text := body(t, r); r.StatusCode != 200 || text != "<p>Carrow" {
		t.Errorf("%d, %q", r.StatusCode, text)
	}
	if err := end(); err != nil {
		t.Errorf("ended with %v", err)
	}
	if _, err := net.DialTimeout("tcp", hostOf(address), time.Second); err == nil {
		t.Error("still listening after the end")
	}
}

func hostOf(address string) string {
	return strings.TrimSuffix(strings.TrimPrefix(address, "http://"), "/")
}

// Paths reach the server as they are typed, which clients of a library do not
// let them.
func TestRawPaths(t *testing.T) {
	address, _ := serving(t, linked(t))
	for _, path := range lookAlikes {
		if path == "/" || path == "" || strings.ContainsAny(path, " \r\n") {
			continue
		}
		c, err := net.Dial("tcp", hostOf(address))
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(c, "GET %s HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n", path)
		answer, err := io.ReadAll(c)
		c.Close()
		if err != nil || strings.Contains(string(answer), secret) || !strings.HasPrefix(string(answer), "HTTP/1.1 4") {
			t.Errorf("%q: %v, %.80q", path, err, answer)
		}
	}
}

// What has begun is sent to its end when the server is told to stop.
func TestRunningRequestsFinish(t *testing.T) {
	out := small(t)
	const size = 32 << 20 // more than the buffers of a connection hold
	write(t, filepath.Join(out, "data/large.tif"), strings.Repeat("x", size))
	address, end := serving(t, out)
	c, err := net.Dial("tcp", hostOf(address))
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	fmt.Fprintf(c, "GET /data/large.tif HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
	r, err := http.ReadResponse(bufio.NewReader(c), nil)
	if err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- end() }()
	time.Sleep(100 * time.Millisecond) // the server stops listening
	n, err := io.Copy(io.Discard, r.Body)
	if err != nil || n != size {
		t.Errorf("%d of %d bytes came, %v", n, size, err)
	}
	if err := <-ended; err != nil {
		t.Errorf("ended with %v", err)
	}
}

func TestPortInUse(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	port := taken.Addr().(*net.TCPAddr).Port
	_, err = preview.Listen(small(t), port)
	if err == nil || !strings.Contains(err.Error(), fmt.Sprintf("port %d is in use", port)) || !strings.Contains(err.Error(), "--port") {
		t.Errorf("error %v", err)
	}
}
