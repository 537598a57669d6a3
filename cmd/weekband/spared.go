package main

// paths returns where the files that were read lie.
func (in *inputs) paths() (list []string) {
	for _, f := range in.files {
		list = append(list, in.path(f.Name))
	}
	return list
}
