package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"syscall"

	"github.com/alecthomas/kong"

	"weekband/cmd/weekband/internal/licences"
	"weekband/cmd/weekband/internal/manual"
	"weekband/cmd/weekband/internal/progress"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/usage"
)

// Exit codes.
const (
	exitOK          = 0
	exitData        = 1 // something is wrong with a file or its contents
	exitUsage       = 2 // something is wrong with the command line
	exitInterrupted = 130
)

// commands is the command line, in the order in which one uses it.
type commands struct {
	Demo      demoCmd      `cmd:"" group:"To begin" help:"Build the example, an invented territory; it needs nothing."`
	Inspect   inspectCmd   `cmd:"" group:"From normals to an edition" help:"Tell what a data set holds and what in it looks wrong."`
	Calibrate calibrateCmd `cmd:"" group:"From normals to an edition" help:"Learn from stations how much warmer than air soil is."`
	Build     buildCmd     `cmd:"" group:"From normals to an edition" help:"Build the edition that a recipe describes."`
	Merge     mergeCmd     `cmd:"" group:"From normals to an edition" help:"Make an edition of rows that were worked out apart."`
	Preview   previewCmd   `cmd:"" group:"With an edition" help:"Show an edition in a browser of this machine."`
	Lookup    lookupCmd    `cmd:"" group:"With an edition" help:"Answer for a place or a position from an edition."`
	Verify    verifyCmd    `cmd:"" group:"With an edition" help:"Compare an edition with readings of soil thermometers."`
	Compare   compareCmd   `cmd:"" group:"With an edition" help:"Tell what moved from one edition to the next, and why."`

	Help       helpCmd       `cmd:"" group:"About weekband" help:"Print the manual, or write it as man pages."`
	Completion completionCmd `cmd:"" group:"About weekband" help:"Print what lets a shell complete command lines."`
	Complete   completeCmd   `cmd:"" hidden:"" help:"Answer what a shell asks."`
	Version    versionCmd    `cmd:"" group:"About weekband" help:"Print the version."`

	Quiet bool `short:"q" help:"Tell errors only, no progress and no notes; the manifest of an edition has its notes."`
}

// eventsFlag is for commands that answer nothing; those that do have their own
// flag of that name, and tell events as well.
type eventsFlag struct {
	JSON bool `help:"Tell progress, notes and errors as JSON, one object a line."`
}

// streams are what a command prints to: answers to out; progress, notes and
// complaints to log, which say does.
type streams struct {
	out, log io.Writer
	say      *progress.Teller
}

// begin makes ready to tell in a manner, or errors only.
func (s *streams) begin(want progress.Manner, hush bool) {
	s.say = progress.New(s.log, want, hush)
	s.out, s.log = s.say.Above(s.out), s.say.Above(s.log)
}

// answerJSON prints an answer for programs.
func (s *streams) answerJSON(answer any) error {
	enc := json.NewEncoder(s.out)
	enc.SetIndent("", "  ")
	return enc.Encode(answer)
}

// run is the whole program; it returns the exit code.
func run(ctx context.Context, args []string, out, log io.Writer) int {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM)
	defer stop()
	code := exitOK
	exited := false
	var line commands
	s := &streams{out: out, log: log}
	parser, err := kong.New(&line,
		kong.Name("weekband"),
		kong.Description("From climate normals to the week in which soil is warm enough for weed seed to germinate: maps, bands, tables and pages."),
		kong.Writers(out, log),
		kong.Help(helped),
		kong.Exit(func(c int) { code, exited = c, true }),
		kong.Bind(s),
		kong.BindTo(ctx, (*context.Context)(nil)),
	)
	if err != nil {
		panic(err) // our own command line does not parse
	}
	parser.Model.HelpFlag.Help = "Print all of this and do nothing else."
	if len(args) == 0 {
		args = []string{"--help"}
	}
	cmd, err := parser.Parse(args)
	if exited { // --help
		return code
	}
	s.begin(tellingOf(cmd, args), line.Quiet)
	defer s.say.Close()
	context.AfterFunc(ctx, func() {
		stop() // a second Ctrl-C ends the program at once
		s.say.Ending()
	})
	if err != nil {
		text, advice := manual.Complaint(parser.Model, err)
		s.say.Fail(exitUsage, text, advice)
		return exitUsage
	}
	return exit(s.say, cmd.Run())
}

// tellingOf returns how a command line wants to be told; cmd is nil when it does
// not parse.
func tellingOf(cmd *kong.Context, args []string) progress.Manner {
	inJSON := slices.Contains(args, "--json")
	if cmd != nil {
		inJSON = slices.ContainsFunc(cmd.Flags(), func(f *kong.Flag) bool { on, _ := cmd.FlagValue(f).(bool); return on && f.Name == "json" })
	}
	if inJSON {
		return progress.Events
	}
	return progress.Lines
}

// exit tells what a command returned, as an exit code.
func exit(say *progress.Teller, err error) int {
	code, text := exitData, ""
	_, usage := errors.AsType[*usage.Error](err)
	switch {
	case err == nil:
		return exitOK
	case errors.Is(err, context.Canceled):
		code, text = exitInterrupted, "interrupted; what stood before stands still"
	case usage:
		code, text = exitUsage, err.Error()
	default:
		text = err.Error()
	}
	say.Fail(code, text, "")
	return code
}

type versionCmd struct {
	Licences bool `help:"Print the licences of all parts that weekband is made of." group:"Instead of the version"`
}

// Run prints the version, or licences.
func (c versionCmd) Run(s *streams) error {
	if c.Licences {
		_, err := io.WriteString(s.out, licences.Text())
		return err
	}
	_, err := fmt.Fprintln(s.out, "weekband", publish.Version)
	return err
}
