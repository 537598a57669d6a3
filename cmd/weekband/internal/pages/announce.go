package pages

import (
	"os"
	"strings"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/render/site"
)

// announce writes the feed of editions, when the recipe says where and when
// this one is published, and the sitemap, when it says where. It comes after
// the pages: the sitemap lists those that are there.
func announce(root *os.Root, r *recipe.Recipe, pages []string) error {
	if r.Address == "" {
		return nil
	}
	files := site.Sitemap{Address: r.Address, Pages: pages, Modified: r.Published}.Documents()
	if !r.Published.IsZero() {
		if text, ok := feed(r).XML(); ok {
			files = append(files, site.Document{Name: site.FeedFile, Data: text})
		}
	}
	for _, f := range files {
		if err := root.WriteFile(f.Name, f.Data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// feed lists this edition and the earlier ones.
func feed(r *recipe.Recipe) site.Feed {
	words := &r.Language.Sentences
	var windows []string
	for _, w := range r.Windows {
		windows = append(windows, w.Title)
	}
	f := site.Feed{Title: r.Title, Language: r.Language.Tag, Address: r.Address}
	add := func(e recipe.Earlier, sentences ...string) {
		f.Editions = append(f.Editions, site.FeedEdition{
			Year: e.Edition, Published: e.Published, Address: e.Address,
			Title: words.Feed.Entry(r.Title, e.Edition), Text: strings.Join(append(sentences, words.Caution), " "),
		})
	}
	add(recipe.Earlier{Edition: r.Edition, Published: r.Published, Address: r.Address},
		words.Edition(r.Edition, r.Normals.Period), words.Feed.Holds(windows))
	for _, e := range r.Earlier {
		add(e, words.Edition(e.Edition, ""))
	}
	return f
}
