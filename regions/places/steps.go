package places

// steps returns how many letters must be put in, taken out, changed or swapped
// with their neighbour to turn a query into a name, and into the beginning of
// it that is nearest. No letter is touched twice (the restricted distance of
// Damerau and Levenshtein). Both stop being exact above limit.
func steps(q, name []rune, limit int) (whole, begin int) {
	if len(name) > len(q)+limit { // the rest cannot bring the beginning nearer
		whole, begin = steps(q, name[:len(q)+limit], limit)
		return max(whole, limit+1), begin
	}
	before, last, row := make([]int, len(q)+1), make([]int, len(q)+1), make([]int, len(q)+1)
	for i := range last {
		last[i] = i
	}
	begin = len(q)
	for j, r := range name {
		row[0] = j + 1
		for i, c := range q {
			change := last[i]
			if c != r {
				change++
			}
			row[i+1] = min(last[i+1]+1, row[i]+1, change)
			if i > 0 && j > 0 && c == name[j-1] && q[i-1] == r {
				row[i+1] = min(row[i+1], before[i-1]+1)
			}
		}
		before, last, row = last, row, before
		begin = min(begin, last[len(q)])
	}
	return last[len(q)], begin
}
