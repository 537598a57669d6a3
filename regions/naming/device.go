package naming

import "strings"

// Device reports whether Windows keeps a name of a file, in any case and with
// any ending, for a device: CON, PRN, AUX, NUL, COM0 to COM9 and LPT0 to LPT9.
// Source: Microsoft, Naming Files, Paths, and Namespaces.
func Device(name string) bool {
	name, _, _ = strings.Cut(strings.ToLower(name), ".")
	switch name {
	case "con", "prn", "aux", "nul":
		return true
	}
	return len(name) == 4 && (strings.HasPrefix(name, "com") || strings.HasPrefix(name, "lpt")) && name[3] >= '0' && name[3] <= '9'
}
