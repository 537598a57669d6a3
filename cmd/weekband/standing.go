package main

import "weekband/cmd/weekband/internal/publish"

// standing returns the folder to read the edition of out from, and says so
// when that is another.
func standing(out string, s *streams) string {
	folder, note := publish.Standing(out)
	if note != "" {
		s.say.Note(note)
	}
	return folder
}
