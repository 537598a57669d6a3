package render

import "weekband/grid/status"

// Status returns the page of one frame of a series. All frames of an atlas
// with the same caption stand alike.
func (a *Atlas) Status(m StatusMap) *Page { return a.compose(m.figure()) }

func (m StatusMap) figure() figure {
	f := figure{caption: m.Caption, week: m.Week, legend: statusLegend(m.Grey)}
	for _, s := range m.Areas {
		f.areas = append(f.areas, area{shape: s.Shape, look: statusLook(s.Status, m.Grey)})
	}
	f.undated(m.Undated, m.Grey)
	return f
}

// statusLook returns how ground of a status is painted.
func statusLook(s status.Status, grey bool) look {
	if grey {
		return statusLooks[s].grey()
	}
	return statusLooks[s]
}

// statusLegend lists all statuses, whether or not they occur, so that every
// frame of a series has the same legend.
func statusLegend(grey bool) legend {
	l := legend{heading: "What this week is good for"}
	for _, s := range status.All {
		l.entries = append(l.entries, entry{look: statusLook(s, grey), label: s.String()})
	}
	return l
}
