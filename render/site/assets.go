package site

import (
	"bytes"
	"embed"
	"fmt"
	"io/fs"
	"path"

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
func Script() ([]byte, error) {
	var b bytes.Buffer
	b.WriteString("\"use strict\";\n(() => {\n")
	for _, name := range scripts {
		part, err := parts.ReadFile("script/" + name + ".js")
		if err != nil {
			return nil, fmt.Errorf("script: %w", err)
		}
		b.Write(part)
	}
	b.WriteString("})();\n")
	return b.Bytes(), nil
}

// assets writes what pages share.
func (w *Writer) assets() error {
	script, err := Script()
	if err != nil {
		return err
	}
	if err := w.file("assets/weekband.js", script); err != nil {
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
