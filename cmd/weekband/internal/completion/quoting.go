package completion

import "strings"

// Split returns the words of a command line as a shell of the POSIX kind reads
// it, without quotes and backslashes; quotes may still be open. The last word is
// empty when the line ends in a space. See POSIX.1-2017, Shell Command
// Language, 2.2 Quoting.
func Split(line string) []string {
	var words []string
	var b strings.Builder
	begun, quote, escaped := false, rune(0), false
	for _, r := range line {
		switch {
		case escaped:
			if quote == '"' && !strings.ContainsRune("$`\"\\\n", r) {
				b.WriteByte('\\')
			}
			b.WriteRune(r)
			escaped = false
		case r == '\\' && quote != '\'':
			escaped, begun = true, true
		case quote != 0 && r == quote:
			quote = 0
		case quote == 0 && (r == '\'' || r == '"'):
			quote, begun = r, true
		case quote == 0 && (r == ' ' || r == '\t' || r == '\n'):
			if begun {
				words = append(words, b.String())
			}
			b.Reset()
			begun = false
		default:
			b.WriteRune(r)
			begun = true
		}
	}
	return append(words, b.String())
}
