package site

// chartScripts are the parts of assets/charts.js in their order.
var chartScripts = []string{"season", "chartnumbers", "chartoption", "chartloader"}

// ChartScript returns the script of pages with charts, assets/charts.js, a
// classic script that finds the library beside itself.
func ChartScript() string { return joined(chartScripts) }
