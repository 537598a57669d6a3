package main

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"testing"
)

// asProgram makes the test binary the program itself.
const asProgram = "WEEKBAND_AS_PROGRAM"

func init() {
	if os.Getenv(asProgram) != "" {
		os.Exit(run(context.Background(), os.Args[1:], os.Stdout, os.Stderr))
	}
}

// child is the program as a process of its own, not yet started.
func child(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.CommandContext(t.Context(), self, args...)
	cmd.Env = append(os.Environ(), asProgram+"=1", "TERM=xterm")
	return cmd
}

// codeOf is the exit code behind the error of a child's end.
func codeOf(t *testing.T, err error) int {
	t.Helper()
	if err == nil {
		return 0
	}
	exit, ok := errors.AsType[*exec.ExitError](err)
	if !ok {
		t.Fatal(err)
	}
	return exit.ExitCode()
}
