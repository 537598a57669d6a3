package site

import (
	"encoding/json"
	"time"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/regions/report"
	"weekband/render/chart"
	"weekband/render/wording"
)

// Edition is what the pages tell. File names are relative to the edition's
// folder and use slashes.
type Edition struct {
	Title     string
	Year      int
	Period    string    // of the normals, "1991-2020"; "" when not known
	Credits   string    // where the normals come from
	Measures  string    // what the threshold is compared with, "soil at 4 in"
	Sure      string    // how sure the days are, a sentence
	Heed      string    // the cautions in a line
	Cautions  []string  // sentences
	Address   string    // of the published pages, "" when not known
	Published time.Time // zero when not known
	Box       grid.Box  // of the land
	Measured  []string  // what each window tells, for machines
	Feed      string    // file of the feed of editions, "" for none

	Windows  []Window
	Regions  []Region          // as near views count them; lists put them in the order of their names
	Files    []File            // to download, besides those of the windows
	Language *wording.Language // of dates and of why regions have none; English when nil

	Index json.RawMessage // what a lookup in the page needs to begin, see package lookup
	Card  Picture         // for sharing the index, File "" for none
}

// Window is one treatment season.
type Window struct {
	Window *status.Window
	Lead   string // what the map shows, a sentence
	Map    Picture
	Wide   Picture // the map as pages show it, for wide screens
	Narrow Picture // the same for narrow ones
	Bands  []Band

	Sheet, NarrowSheet Picture // all weeks side by side, the second for a narrow screen
	Weeks              []Frame
	Animation          *Animation // nil for none
	More               []Map      // further maps

	Rows    []report.Row
	Shares  Shares
	Files   []File
	Handout string

	Chart Charts

	Residual string // what treatment the costs are reckoned for, a sentence
}

// Charts are those of a window's page; nil for none.
type Charts struct {
	Statuses *chart.Chart // the year of every region
	Slope    *chart.Chart // the day against height or latitude
}

func (c Charts) any() bool { return c.Statuses != nil || c.Slope != nil }

// Page is the file of the window's page.
func (w *Window) Page() string { return "windows/" + w.Window.ID + ".html" }

// Picture is an image file under the edition's folder.
type Picture struct {
	File, Alt     string
	Width, Height int // CSS pixels
}

// Map is a further map and its title.
type Map struct {
	Title   string
	Picture Picture
}

// Frame is the picture of one week.
type Frame struct {
	Week    season.Week
	Picture Picture
}

// Animation is the moving picture of the weeks, and the week that readers who
// asked their system for less motion see in its place.
type Animation struct {
	Picture
	Still Frame
}

// Band is one class of the map's legend.
type Band struct {
	Label string
	Km2   float64
	Share float64 // of the land
}

// Shares tells what becomes of the land, in shares that add to 1.
type Shares struct{ Dated, Flat, Never, Always float64 }

// File is a file to download.
type File struct{ Name, What string }
