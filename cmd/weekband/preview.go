package main

import (
	"context"
	"fmt"

	"weekband/cmd/weekband/internal/preview"
	"weekband/cmd/weekband/internal/usage"
)

type previewCmd struct {
	Out  string `arg:"" name:"edition" help:"Folder of a built edition." complete:"folders"`
	Port int    `help:"Port to listen on, 1 to 65535. Default: any that is free." placeholder:"N" complete:"nothing" group:"Where it is shown"`
}

// Run serves an edition to this machine until it is interrupted, which is how
// it ends well.
func (c previewCmd) Run(ctx context.Context, s *streams) error {
	if c.Port < 0 || c.Port > 65535 {
		return usage.Errorf("port %d: want 1 to 65535, or none for a free one", c.Port)
	}
	standing(c.Out, s) // the server finds it by itself, and the next one
	server, err := preview.Listen(c.Out, c.Port)
	if err != nil {
		return err
	}
	fmt.Fprintf(s.out, "%s shows %s to this machine; end with Ctrl-C\n", server.Address(), c.Out)
	return server.Serve(ctx)
}
