package atlas

import (
	"fmt"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/season"
)

func mapFile(window string) string { return "maps/" + window + ".png" }

func wideFile(window string) string { return "maps/" + window + "-page.png" }

func narrowFile(window string) string { return "maps/" + window + "-narrow.png" }

func sheetFile(window string) string { return "maps/" + window + "-sheet.png" }

// HandoutFile names the handout of a window.
func HandoutFile(window string) string { return "maps/" + window + "-handout.pdf" }

func narrowSheetFile(window string) string { return "maps/" + window + "-sheet-narrow.png" }

func greyFile(window string) string { return "maps/" + window + "-grey.png" }

func frameFile(window string, w season.Week) string {
	return fmt.Sprintf("weeks/%s/%02d.png", window, int(w))
}

func animationFile(window string) string { return "weeks/" + window + ".gif" }

// VectorFile names the map of a window as SVG.
func VectorFile(window string) string { return "maps/" + window + ".svg" }

// PrintFile names the map of a window as PDF.
func PrintFile(window string) string { return "maps/" + window + ".pdf" }

func furtherFile(window string, kind recipe.Map) string {
	return fmt.Sprintf("maps/%s-%s.png", window, kind)
}

func worthOfFile(window string, w season.Week) string {
	return fmt.Sprintf("maps/%s-%s-%02d.png", window, recipe.Worth, int(w))
}
