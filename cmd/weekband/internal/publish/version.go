package publish

import "runtime/debug"

// Version is what the program and its manifests call it.
const Version = "0.1.0"

// ProgramName tells one program from others: its version and the state of the
// source that it was built from, where that is known. It is the same on every
// kind of machine.
func ProgramName() string {
	name := "weekband " + Version
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			switch {
			case s.Key == "vcs.revision":
				name += " of revision " + s.Value
			case s.Key == "vcs.modified" && s.Value == "true":
				name += ", changed"
			}
		}
	}
	return name
}
