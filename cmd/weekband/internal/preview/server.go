package preview

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strconv"
	"syscall"
	"time"
)

// Times a browser of this machine never needs, so that a connection that hangs
// holds up nothing.
const (
	headerTime = 10 * time.Second // to send a request's header
	idleTime   = 2 * time.Minute  // between two requests
	finishTime = 5 * time.Second  // for running requests, at the end
)

// loopback is the only address that is listened on: other machines cannot
// reach it.
const loopback = "127.0.0.1"

// Server serves one edition.
type Server struct {
	listener net.Listener
	http     http.Server
}

// Listen checks that a folder holds an edition and listens on a port of this
// machine alone, 0 for any free one. The error says when the folder is no
// edition or the port is taken.
func Listen(folder string, port int) (*Server, error) {
	handler, err := NewHandler(folder)
	if err != nil {
		return nil, err
	}
	listener, err := net.Listen("tcp", net.JoinHostPort(loopback, strconv.Itoa(port)))
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, fmt.Errorf("port %d is in use by another program: name another with --port, or none for a free one", port)
	case errors.Is(err, syscall.EACCES):
		return nil, fmt.Errorf("port %d is not open to you: name one from 1024 on with --port, or none for a free one", port)
	case err != nil:
		return nil, fmt.Errorf("port %d: %w", port, err)
	}
	return &Server{listener: listener, http: http.Server{Handler: handler, ReadHeaderTimeout: headerTime, IdleTimeout: idleTime}}, nil
}

// Address is where a browser finds the first page.
func (s *Server) Address() string { return "http://" + s.listener.Addr().String() + "/" }

// Serve answers requests until ctx ends, then lets running ones finish, for
// five seconds at most. It returns nil when that is why it ends.
func (s *Server) Serve(ctx context.Context) error {
	ended := make(chan error, 1)
	go func() { ended <- s.http.Serve(s.listener) }()
	select {
	case err := <-ended:
		return fmt.Errorf("preview: %w", err)
	case <-ctx.Done():
	}
	patience, stop := context.WithTimeout(context.WithoutCancel(ctx), finishTime)
	defer stop()
	if err := s.http.Shutdown(patience); err != nil {
		return s.http.Close()
	}
	return nil
}
