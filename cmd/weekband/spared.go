package main

// paths returns where the recipe and all files that were read lie.
func (in *inputs) paths(recipePath string) []string {
	list := []string{recipePath}
	for _, name := range in.files {
		list = append(list, in.path(name))
	}
	return list
}
