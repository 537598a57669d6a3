package chart

import (
	"embed"
	"encoding/json"
	"html/template"
	"io/fs"
)

type Table struct {
	Head []string
	Rows [][]string
}
type Chart struct {
	ID, Title, Alt string
	Height         int
	Option         json.RawMessage
	Table          Table
}

var Templates = template.Must(template.New("charts").Parse(`{{define "chart"}}{{end}}`))

func Assets() fs.FS { return embed.FS{} }
