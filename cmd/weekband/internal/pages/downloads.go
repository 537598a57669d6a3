package pages

import (
	"slices"

	"weekband/cmd/weekband/internal/atlas"
	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/grid/weeks"
	"weekband/render/site"
)

// editionFiles lists the downloads that belong to no window.
func editionFiles(in *inputs.Set, cells bool) []site.File {
	files := []site.File{
		{Name: output.TableCSV, What: "regions as CSV"},
		{Name: output.TableXLSX, What: "regions as a spreadsheet"},
		{Name: output.WorthFile, What: "what being early or late costs, as CSV"},
	}
	if cells {
		files = append(files, site.File{Name: output.CellsFile, What: "every cell as gzipped CSV"})
	}
	if len(in.Areas.Regions) > 0 {
		files = append(files, site.File{Name: output.RegionsFile, What: "region outlines as GeoJSON"})
	}
	if in.Stations != nil {
		files = append(files, site.File{Name: inputs.StationsFile, What: "how well the stations agree"})
	}
	return files
}

// windowFiles lists the downloads of a window.
func windowFiles(f *weeks.Field, p atlas.Pictures) []site.File {
	id := f.Window.ID
	files := []site.File{
		{Name: p.Main.File, What: "map as PNG"},
		{Name: atlas.HandoutFile(id), What: "handout to print, as PDF"},
		{Name: atlas.PrintFile(id), What: "map to print, as PDF"},
		{Name: atlas.VectorFile(id), What: "map as SVG"},
		{Name: p.Grey.File, What: "map in grey, for copiers"},
		{Name: p.Sheet.File, What: "all weeks on a sheet"},
		{Name: output.GridFile(id), What: "crossing day as GeoTIFF"},
		{Name: output.BandsFile(id), What: "bands as GeoJSON"},
	}
	if a := p.Weeks.Animation; a != nil {
		files = slices.Insert(files, 3, site.File{Name: a.File, What: "all weeks as an animation"})
	}
	if f.Error != nil {
		files = append(files, site.File{Name: output.ErrorFile(id), What: "its standard error as GeoTIFF"})
	}
	return files
}
