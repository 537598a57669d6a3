package site

import (
	"embed"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"weekband/render/chart"
)

//go:embed assets script
var parts embed.FS

// scripts are the parts of assets/weekband.js in their order: what a part calls
// while the page loads stands before it. Without packing or modules, pages work
// from file:// too.
var scripts = []string{
	"season", "language", "curve", "crossing", "emergence", "residual", "worth", "outlook", "answer", "roughly", "thisyear", "tale",
	"shards", "find", "edition", "sight",
	"choice", "strips", "tables", "panels", "search", "position", "reading", "panel", "desk", "frames", "page",
}

// Script returns the script of the pages: its parts within one function, so
// that nothing of it is seen from outside but what data files call.
func Script() string { return joined(scripts) }

// joined returns parts of scripts within one strict function.
func joined(names []string) string { return "\"use strict\";\n(() => {\n" + source(names) + "})();\n" }

// source returns parts of scripts one after the other.
func source(names []string) string {
	var b strings.Builder
	for _, name := range names {
		part, err := parts.ReadFile("script/" + name + ".js")
		if err != nil {
			panic("site: " + err.Error()) // the folder is embedded
		}
		b.Write(part)
	}
	return b.String()
}

// assets writes what pages share.
func (w *Writer) assets() error {
	if err := w.file("assets/weekband.js", []byte(Script())); err != nil {
		return err
	}
	own, err := fs.Sub(parts, "assets")
	if err != nil {
		return err
	}
	if err := w.file("assets/charts.js", []byte(ChartScript())); err != nil {
		return err
	}
	for _, from := range []fs.FS{own, chart.Assets()} {
		err := fs.WalkDir(from, ".", func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			data, err := fs.ReadFile(from, name)
			if err != nil {
				return err
			}
			return w.file(path.Join("assets", name), data)
		})
		if err != nil {
			return fmt.Errorf("assets: %w", err)
		}
	}
	return nil
}
