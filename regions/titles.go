package regions

// Titles returns the names by which readers tell the regions apart, in their
// order: a name with what the region lies in, "Carrow, Westmark", where that is
// known, and with its id, "Carrow (W3)", where another has the same.
func (s Set) Titles() []string {
	titles := make([]string, len(s.Regions))
	times := map[string]int{}
	for i, r := range s.Regions {
		titles[i] = r.Name
		if r.Within != "" && r.Within != r.Name {
			titles[i] += ", " + r.Within
		}
		times[titles[i]]++
	}
	for i, r := range s.Regions {
		if times[titles[i]] > 1 && r.ID != r.Name {
			titles[i] += " (" + r.ID + ")"
		}
	}
	return titles
}
