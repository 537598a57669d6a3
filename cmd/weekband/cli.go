package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"

	"github.com/alecthomas/kong"

	"weekband/cmd/weekband/internal/demo"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/scratch"
)

// Exit codes.
const (
	exitOK          = 0
	exitData        = 1 // something is wrong with a file or its contents
	exitUsage       = 2 // something is wrong with the command line
	exitInterrupted = 130
)

// version is what the program and its manifests call it.
const version = "0.1.0"

// commands is the command line.
type commands struct {
	Demo      demoCmd      `cmd:"" help:"Build the embedded example, an invented territory. Needs nothing."`
	Build     buildCmd     `cmd:"" help:"Build the edition that a recipe describes."`
	Lookup    lookupCmd    `cmd:"" help:"Answer for a place or a position from a built edition."`
	Calibrate calibrateCmd `cmd:"" help:"Learn from paired series of air and soil how much warmer soil is: a table for recipes, and how good it is."`
	Inspect   inspectCmd   `cmd:"" help:"Tell what a data set holds and what in it looks wrong."`
	Verify    verifyCmd    `cmd:"" help:"Compare an edition with soil thermometers: departures in degrees and days, and a picture."`
	Preview   previewCmd   `cmd:"" help:"Show a built edition in a browser of this machine, as a host would serve it."`
	Version   versionCmd   `cmd:"" help:"Print the version."`
}

// streams are what a command prints to: answers to out, progress and
// complaints to log.
type streams struct{ out, log io.Writer }

// run is the whole program; it returns the exit code.
func run(ctx context.Context, args []string, out, log io.Writer) int {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // a second signal ends the process at once
	code := exitOK
	exited := false
	parser, err := kong.New(&commands{},
		kong.Name("weekband"),
		kong.Description("From climate normals to the week in which soil is warm enough for weed seed to germinate: maps, bands, tables and pages."),
		kong.Writers(out, log),
		kong.Exit(func(c int) { code, exited = c, true }),
		kong.UsageOnError(),
		kong.Bind(&streams{out: out, log: log}),
		kong.BindTo(ctx, (*context.Context)(nil)),
	)
	if err != nil {
		panic(err) // our own command line does not parse
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	cmd, err := parser.Parse(args)
	if exited { // --help
		return code
	}
	if err != nil {
		fmt.Fprintf(log, "weekband: %v\nTry weekband --help.\n", err)
		return exitUsage
	}
	return exitCode(cmd.Run(), log)
}

// exitCode reports what a command returned.
func exitCode(err error, log io.Writer) int {
	if err == nil {
		return exitOK
	}
	if errors.Is(err, context.Canceled) {
		fmt.Fprintln(log, "weekband: interrupted; what stood before stands still")
		return exitInterrupted
	}
	fmt.Fprintf(log, "weekband: %v\n", err)
	if _, ok := errors.AsType[*usageError](err); ok {
		return exitUsage
	}
	return exitData
}

// usageError is a wrong argument that the command line's grammar allows.
type usageError struct{ text string }

func (e *usageError) Error() string { return e.text }

type versionCmd struct{}

// Run prints the version.
func (versionCmd) Run(s *streams) error {
	_, err := fmt.Fprintln(s.out, "weekband", version)
	return err
}

type demoCmd struct {
	Out    string `help:"Folder to write." default:"out/demo" placeholder:"DIR"`
	Unpack string `help:"Only write the example's recipe and data into this folder, to try changes on." placeholder:"DIR"`
}

// Run builds the embedded territory, or unpacks it.
func (c demoCmd) Run(ctx context.Context, s *streams) error {
	if c.Unpack != "" {
		if err := os.CopyFS(c.Unpack, demo.Files()); err != nil {
			return err
		}
		fmt.Fprintf(s.log, "wrote %s; now try: weekband build %s\n", c.Unpack, filepath.Join(c.Unpack, demo.Recipe))
		return nil
	}
	dir, err := scratch.New("demo")
	if err != nil {
		return err
	}
	defer dir.Close()
	territory := filepath.Join(dir.Path(), "territory")
	if err := os.CopyFS(territory, demo.Files()); err != nil {
		return err
	}
	return build(ctx, filepath.Join(territory, demo.Recipe), c.Out, false, s.log)
}

type buildCmd struct {
	Recipe string `arg:"" help:"YAML file that describes the run." placeholder:"RECIPE"`
	Out    string `help:"Folder to write; out/ and the recipe's name if not given." placeholder:"DIR"`

	AllCells bool `help:"Write the table of cells even when it has more than two million lines."`
}

// Run builds the recipe's edition.
func (c buildCmd) Run(ctx context.Context, s *streams) error {
	out := c.Out
	if out == "" {
		base := filepath.Base(c.Recipe)
		out = filepath.Join("out", strings.TrimSuffix(base, filepath.Ext(base)))
	}
	return build(ctx, c.Recipe, out, c.AllCells, s.log)
}

// build reads a recipe and runs the pipeline.
func build(ctx context.Context, path, out string, allCells bool, log io.Writer) error {
	r, err := recipe.Load(path)
	if err != nil {
		return err
	}
	return pipeline(ctx, r, path, out, allCells, &progress{to: log})
}
