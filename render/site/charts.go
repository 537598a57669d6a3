package site

import (
	_ "embed"
	"strings"
)

// The script of charts, in the order its parts need each other.
var (
	//go:embed script/chartnumbers.js
	chartNumbers string
	//go:embed script/chartoption.js
	chartOption string
	//go:embed script/chartloader.js
	chartLoader string
)

// ChartScript returns the script of pages with charts, assets/charts.js, a
// classic script that finds the library beside itself.
func ChartScript() string {
	return "(() => {\n\"use strict\";\n" + strings.Join([]string{chartNumbers, chartOption, chartLoader}, "\n") + "})();\n"
}
