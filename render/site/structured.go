package site

import (
	"encoding/json"
	"fmt"
	"html/template"
	"regexp"
	"strconv"
	"strings"
	"time"

	"weekband/grid"
)

// DatasetFacts is what machines are told of an edition.
type DatasetFacts struct {
	Title, Description string // the description holds the cautions in short
	Year               int
	Period             string // of the normals, "1991-2020"; "" when not known
	Published          time.Time
	Credits            string
	Language           string // BCP 47
	Address            string // of the pages, "" for none
	Box                grid.Box
	Measured           []string // what each window tells, "day on which soil at 4 in warms to 55 °F"
	Files              []File   // to download
}

// PageFacts is what machines are told of the page of a region.
type PageFacts struct {
	File, Title, Description string // of the page
	Published                time.Time
	Language                 string // BCP 47
	Address                  string // of the pages, "" for none
	Edition                  string // title of the edition
	Home                     string // its first page from this one, "../index.html"
	Region                   string
	Box                      grid.Box // around the region
	Image                    string   // file of its picture for sharing, "" for none
}

// Dataset describes an edition in the words of schema.org (types Dataset,
// DataDownload, Place, GeoShape) as JSON-LD for a script element of type
// application/ld+json. Names of files become addresses, or without one stay
// relative to the first page. The JSON can stand in HTML as it is: <, > and &
// are escaped.
func Dataset(f DatasetFacts) template.JS {
	d := map[string]any{
		"@context": schema, "@type": "Dataset",
		"name": f.Title, "description": f.Description, "version": strconv.Itoa(f.Year),
		"inLanguage": f.Language, "creditText": f.Credits, "temporalCoverage": interval(f.Period),
		"spatialCoverage": place("", f.Box), "url": Under(f.Address, ""), "datePublished": dayOf(f.Published),
		"variableMeasured": f.Measured,
	}
	var downloads []any
	for _, file := range f.Files {
		downloads = append(downloads, kept(map[string]any{
			"@type": "DataDownload", "name": file.What, "contentUrl": at(f.Address, file.Name, file.Name), "encodingFormat": MediaType(file.Name),
		}))
	}
	d["distribution"] = downloads
	return ld(d)
}

// WebPage describes the page of a region (types WebPage, BreadcrumbList,
// Place, GeoShape), as Dataset does an edition.
func WebPage(f PageFacts) template.JS {
	page := map[string]any{
		"@context": schema, "@type": "WebPage",
		"name": f.Title, "description": f.Description, "inLanguage": f.Language, "datePublished": dayOf(f.Published),
		"about": place(f.Region, f.Box),
		"breadcrumb": map[string]any{
			"@type": "BreadcrumbList",
			"itemListElement": []any{
				map[string]any{"@type": "ListItem", "position": 1, "name": f.Edition, "item": at(f.Address, "", f.Home)},
				map[string]any{"@type": "ListItem", "position": 2, "name": f.Region},
			},
		},
	}
	if address := Under(f.Address, f.File); address != "" {
		page["url"] = address
	}
	if f.Image != "" {
		page["primaryImageOfPage"] = map[string]any{"@type": "ImageObject", "contentUrl": at(f.Address, f.Image, strings.TrimSuffix(f.Home, "index.html")+f.Image)}
	}
	return ld(page)
}

const schema = "https://schema.org"

// at returns the address of a file, or the file from the page without one.
func at(address, file, relative string) string {
	if full := Under(address, file); full != "" {
		return full
	}
	return relative
}

// place is ground within a box; name may be empty. schema.org writes a box as
// its south-western and north-eastern corners, latitude first.
func place(name string, b grid.Box) any {
	if b == (grid.Box{}) && name == "" {
		return nil
	}
	p := map[string]any{"@type": "Place", "name": name}
	if b != (grid.Box{}) {
		p["geo"] = map[string]any{"@type": "GeoShape", "box": fmt.Sprintf("%s %s %s %s", degrees(b.South), degrees(b.West), degrees(b.North), degrees(b.East))}
	}
	return kept(p)
}

// degrees writes an angle to a ten-thousandth, some 10 m.
func degrees(v float64) string {
	text := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 4, 64), "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

// years is a period such as 1991-2020.
var years = regexp.MustCompile(`^(\d{4})\s*[-–/]\s*(\d{4})$`)

// interval writes a period as an interval of ISO 8601, "" for other words.
func interval(period string) string {
	m := years.FindStringSubmatch(strings.TrimSpace(period))
	if m == nil {
		return ""
	}
	return m[1] + "/" + m[2]
}

func dayOf(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}

// kept drops what is empty.
func kept(m map[string]any) map[string]any {
	for key, v := range m {
		switch v := v.(type) {
		case nil:
			delete(m, key)
		case string:
			if v == "" {
				delete(m, key)
			}
		case []string:
			if len(v) == 0 {
				delete(m, key)
			}
		case []any:
			if len(v) == 0 {
				delete(m, key)
			}
		}
	}
	return m
}

// ld writes a description with its keys in the order of their letters.
func ld(m map[string]any) template.JS {
	text, err := json.Marshal(kept(m)) // escapes <, > and &
	if err != nil {
		panic(fmt.Sprintf("site: %v", err)) // texts and maps of ours can be written
	}
	return template.JS(text)
}
