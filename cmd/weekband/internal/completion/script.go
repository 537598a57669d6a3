package completion

import "embed"

//go:embed scripts
var scripts embed.FS

// Shells are those with a script.
var Shells = []string{"bash", "zsh", "fish"}

// Script returns the script of a shell, "" when there is none.
func Script(shell string) string {
	text, err := scripts.ReadFile("scripts/weekband." + shell)
	if err != nil {
		return ""
	}
	return string(text)
}
