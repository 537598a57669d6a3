package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/alecthomas/kong"
	"golang.org/x/term"

	"weekband/cmd/weekband/internal/manual"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/usage"
)

type helpCmd struct {
	Topic []string `arg:"" optional:"" help:"Command or topic; after recipe, keys of a recipe." complete:"topics"`
	Man   string   `help:"Write all of the manual as man pages into a folder, instead." placeholder:"DIR" complete:"folders" group:"What is written"`
}

// Run prints a page of the manual, or writes all of them.
func (c helpCmd) Run(ctx context.Context, line *kong.Context, s *streams) error {
	if c.Man != "" {
		return c.write(ctx, line.Model, s)
	}
	page := manual.Overview(line.Model)
	if len(c.Topic) > 0 {
		page = manual.Find(line.Model, c.Topic[0])
	}
	switch {
	case page == nil:
		return usage.Errorf("%s", manual.Unknown("command or topic", c.Topic[0], manual.Names(line.Model), "weekband help lists them"))
	case len(c.Topic) > 1 && c.Topic[0] != "recipe":
		return usage.Errorf("help tells of one command or topic at a time; %q is more", c.Topic[1])
	case len(c.Topic) > 1:
		var err error
		if page, err = manual.Keys(c.Topic[1:]); err != nil {
			return usage.Errorf("%v", err)
		}
	}
	_, err := io.WriteString(s.out, page.Plain(columns(line.Stdout)))
	return err
}

// write writes every page as a man page.
func (c helpCmd) write(ctx context.Context, app *kong.Application, s *streams) error {
	if len(c.Topic) > 0 {
		return usage.Errorf("--man writes all of the manual; it goes with no command or topic")
	}
	pages := []*manual.Page{manual.Overview(app)}
	for _, name := range manual.Names(app) {
		pages = append(pages, manual.Find(app, name))
	}
	for _, p := range pages {
		if err := ctx.Err(); err != nil {
			return err
		}
		name, section := p.ManName()
		dir := filepath.Join(c.Man, fmt.Sprintf("man%d", section))
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return err
		}
		err := publish.File(filepath.Join(dir, fmt.Sprintf("%s.%d", name, section)), func(w io.Writer) error {
			_, err := io.WriteString(w, p.Man(publish.Version))
			return err
		})
		if err != nil {
			return err
		}
	}
	s.say.Done("wrote %d pages; read them with: man -M %s weekband", len(pages), c.Man)
	return nil
}

// helped prints the page of the command that --help stands behind.
func helped(_ kong.HelpOptions, line *kong.Context) error {
	page := manual.Overview(line.Model)
	if node := line.Selected(); node != nil && !node.Hidden {
		page = manual.Command(node)
	}
	_, err := io.WriteString(line.Stdout, page.Plain(columns(line.Stdout)))
	return err
}

// columns is the width of a page: 80, or that of a narrower terminal.
func columns(out io.Writer) int {
	const usual, least = 80, 40
	if f, ok := out.(*os.File); ok {
		if width, _, err := term.GetSize(int(f.Fd())); err == nil {
			return min(usual, max(least, width))
		}
	}
	return usual
}
