package chart

import (
	"embed"
	"io/fs"
)

//go:embed assets
var assets embed.FS

// Assets returns the files that pages with charts need beside their script:
// charts.css, and the chart library echarts.js with its licence and notice.
func Assets() fs.FS {
	files, err := fs.Sub(assets, "assets")
	if err != nil {
		panic(err) // the folder is embedded
	}
	return files
}
