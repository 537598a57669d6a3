// Command weekband works out, from gridded climate normals, the typical week
// in which soil crosses a germination threshold, and publishes it as maps,
// tables, data and pages. See README.md, then pipeline.go.
package main

import (
	"context"
	"os"
)

func main() { os.Exit(run(context.Background(), os.Args[1:], os.Stdout, os.Stderr)) }
