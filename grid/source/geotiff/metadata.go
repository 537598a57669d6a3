package geotiff

import (
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// metadata is what the text tags of GDAL say about one page.
type metadata struct {
	nodata    float64
	hasNoData bool
	nodText   string
	scale     map[int]float64
	offset    map[int]float64
	unit      map[int]string
	name      map[int]string
}

// maxMetadata bounds the XML read, in bytes.
const maxMetadata = 4 << 20

func (s *stream) readMetadata(d directory) (metadata, error) {
	m := metadata{scale: map[int]float64{}, offset: map[int]float64{}, unit: map[int]string{}, name: map[int]string{}}
	text, err := s.text(d, tagNoData)
	if err != nil {
		return m, err
	}
	if text = strings.TrimSpace(text); text != "" {
		m.nodText = text
		m.nodata, err = strconv.ParseFloat(text, 64)
		if err != nil && !math.IsInf(m.nodata, 0) {
			return m, fmt.Errorf("%s: the nodata tag (42113) says %q, which is not a number", s.name, text)
		}
		m.hasNoData = true
	}
	if d.fields[tagMetadata].n > maxMetadata {
		return m, fmt.Errorf("%s: %d bytes of metadata (tag 42112); want at most %d", s.name, d.fields[tagMetadata].n, maxMetadata)
	}
	if text, err = s.text(d, tagMetadata); err != nil || text == "" {
		return m, err
	}
	return m, m.parse(s.name, text)
}

// unescape undoes the second of the two escapings that GDAL puts on texts.
var unescape = strings.NewReplacer("&amp;", "&", "&lt;", "<", "&gt;", ">", "&quot;", `"`, "&#34;", `"`, "&#39;", "'")

// parse reads <GDALMetadata><Item name= sample= role=>…</Item></GDALMetadata>.
func (m *metadata) parse(name, text string) error {
	var doc struct {
		Items []struct {
			Role   string `xml:"role,attr"`
			Sample string `xml:"sample,attr"`
			Text   string `xml:",chardata"`
		} `xml:"Item"`
	}
	if err := xml.Unmarshal([]byte(text), &doc); err != nil {
		return fmt.Errorf("%s: the metadata (tag 42112) is not well-formed XML: %w", name, err)
	}
	for _, item := range doc.Items {
		band, err := strconv.Atoi(item.Sample)
		if err != nil {
			continue // of the file, not of a band
		}
		value := strings.TrimSpace(unescape.Replace(item.Text))
		switch item.Role {
		case "scale", "offset":
			v, err := strconv.ParseFloat(value, 64)
			if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("%s: the metadata (tag 42112) gives band %d the %s %q, which is not a number", name, band+1, item.Role, value)
			}
			if item.Role == "scale" {
				m.scale[band] = v
			} else {
				m.offset[band] = v
			}
		case "unittype":
			m.unit[band] = value
		case "description":
			m.name[band] = value
		}
	}
	return nil
}

// band returns the meaning of one band of a page.
func (m metadata) band(p *page, index int) band {
	b := band{page: p, index: index, scale: 1, name: m.name[index], unit: m.unit[index]}
	b.setNoData(m.nodata, m.hasNoData)
	if v, ok := m.scale[index]; ok {
		b.scale = v
	}
	b.offset = m.offset[index]
	b.scaled = b.scale != 1 || b.offset != 0
	return b
}
