package atlas

import (
	"fmt"

	"weekband/grid/season"
	"weekband/grid/weeks"
	"weekband/render"
	"weekband/render/wording"
)

// frameAlt describes the picture of one week.
func frameAlt(l *wording.Language, f *weeks.Field, w season.Week) string {
	return fmt.Sprintf("Map of the week of %s: where it is ahead of time, on time or catching up for %s.", l.Week(w), f.Window.Title)
}

// animationAlt describes the moving picture of the weeks and the one week that
// stands in for it.
func animationAlt(l *wording.Language, f *weeks.Field, maps []render.StatusMap, still season.Week) string {
	return fmt.Sprintf("Map of each week%s in turn, or of the week of %s alone: where it is ahead of time, on time or catching up for %s. The sheet above shows the same weeks side by side.", fromTo(maps), l.Week(still), f.Window.Title)
}

// sheetAlt describes the sheet of all weeks.
func sheetAlt(f *weeks.Field, maps []render.StatusMap) string {
	return fmt.Sprintf("Small maps, one for each week%s: where it is ahead of time, on time or catching up for %s.", fromTo(maps), f.Window.Title)
}

// fromTo tells the first and the last week that is drawn.
func fromTo(maps []render.StatusMap) string {
	if len(maps) == 0 {
		return ""
	}
	return fmt.Sprintf(" from %s to %s", maps[0].Week, maps[len(maps)-1].Week)
}
