package site

import (
	"fmt"
	"html/template"
	"net/url"
	"strings"

	"weekband/render"
)

// TerritoryFile is the small map of the whole territory that the pages of all
// regions share.
const TerritoryFile = "assets/territory.svg"

// Locator is where a region lies: in the territory and among its neighbours.
type Locator struct {
	Width, Height float64 // of the overview, px
	Overview      render.Overview
	Near          render.Near
}

// Surroundings is what the near view of the page's region holds, as elements of
// SVG, one a line: the ground of the regions around it, each a link to its page,
// that of its own, and the names. What the edition does not know, such as ground
// without normals, has no page. Pages of regions are many, and a template would
// take longer over these than over all else on them.
func (v *view) Surroundings() template.HTML {
	near := &v.Region.Locator.Near
	var b strings.Builder
	for _, n := range near.Regions {
		r := v.order[n.Region]
		if r.ID == v.Region.ID {
			fmt.Fprintf(&b, "<path class=\"own\" d=\"%s\"/>\n", template.HTMLEscapeString(n.Path))
			continue
		}
		name := template.HTMLEscapeString(r.Name)
		page := url.URL{Path: v.Root() + r.Page()}
		fmt.Fprintf(&b, "<a href=\"%s\" aria-label=\"%s\" tabindex=\"-1\"><path class=\"other\" d=\"%s\"><title>%s</title></path></a>\n",
			template.HTMLEscapeString(page.String()), name, template.HTMLEscapeString(n.Path), name)
	}
	for _, l := range near.Labels {
		writeName(&b, l)
	}
	return template.HTML(strings.TrimSuffix(b.String(), "\n"))
}

// writeName writes a name of a near view.
func writeName(b *strings.Builder, l render.NearLabel) {
	own := ""
	if l.Own {
		own = ` class="own"`
	}
	fmt.Fprintf(b, `<text x="%v" y="%v" font-size="%v"%s aria-hidden="true">`, l.X, l.Y, l.Size, own)
	for i, line := range l.Lines {
		down := ""
		if i > 0 {
			down = fmt.Sprintf(` dy="%v"`, l.Leading)
		}
		fmt.Fprintf(b, `<tspan x="%v"%s>%s</tspan>`, l.X, down, template.HTMLEscapeString(line))
	}
	b.WriteString("</text>\n")
}

// Territory is the file of the overview's land.
func (v *view) Territory() string { return TerritoryFile }

// NearWidth and NearHeight are those of the near view, px.
func (v *view) NearWidth() int  { return render.NearWidth }
func (v *view) NearHeight() int { return render.NearHeight }
