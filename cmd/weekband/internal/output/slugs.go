package output

import (
	"strconv"
	"strings"
	"unicode"

	"weekband/regions"
	"weekband/regions/naming"
	"weekband/regions/places"
)

// longest is how many letters a slug has at most.
const longest = 60

// Slugs returns a name for files for every region by its id: small letters,
// digits and dashes of the region's name, or of its title where two names would
// be the same. No region is called index, which is the name of a page of them
// all, or by a name that Windows keeps for itself.
func Slugs(set regions.Set) map[string]string {
	times := map[string]int{}
	for _, r := range set.Regions {
		times[Slug(r.Name)]++
	}
	titles := set.Titles()
	out, used := map[string]string{}, map[string]bool{"index": true}
	for i, r := range set.Regions {
		s := Slug(r.Name)
		if times[s] > 1 {
			s = Slug(titles[i])
		}
		if s == "" {
			s = Slug(r.ID)
		}
		if naming.Device(s) {
			s = "region-" + s
		}
		for base, n := s, 2; used[s] || s == ""; n++ {
			s = strings.Trim(base+"-"+strconv.Itoa(n), "-")
		}
		used[s] = true
		out[r.ID] = s
	}
	return out
}

// Slug folds a text to small letters, digits and single dashes.
func Slug(text string) string {
	var b strings.Builder
	for _, r := range places.Fold(text) {
		switch {
		case r < unicode.MaxASCII && (unicode.IsLower(r) || unicode.IsDigit(r)):
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() == longest {
			break
		}
	}
	return strings.Trim(b.String(), "-")
}
