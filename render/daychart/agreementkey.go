package daychart

import (
	"math"
	"slices"

	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
	"weekband/render/wording"
)

// agreementKey explains the marks of a chart of agreement, one line each.
type agreementKey struct {
	lang    *wording.Language
	unit    float64
	scale   float64 // of the dots, set when the chart is drawn
	entries []keyEntry
}

// keyEntry is a sample and its words. sample draws into its box.
type keyEntry struct {
	words  string
	sample func(c canvas.Canvas, box plane.Rect)
}

// key returns the entries: only what occurs, with the places counted.
func (m Agreement) key(u float64) *agreementKey {
	k := &agreementKey{lang: m.Language, unit: u, scale: 1}
	k.records(m.Points)
	k.unlike(m.Points)
	k.bands(m.Points)
	return k
}

func (k *agreementKey) add(words string, sample func(c canvas.Canvas, box plane.Rect)) {
	k.entries = append(k.entries, keyEntry{words: words, sample: sample})
}

// dot adds an entry for a kind of dot.
func (k *agreementKey) dot(words string, p AgreementPoint, radius float64) {
	u := k.unit
	k.add(words, func(c canvas.Canvas, box plane.Rect) {
		mark{AgreementPoint: p, at: box.Center(), radius: radius * u * k.scale}.draw(c, u)
	})
}

// records adds the sizes of dots and the whisker.
func (k *agreementKey) records(points []AgreementPoint) {
	first := true
	for i, r := range records {
		if slices.ContainsFunc(points, func(p AgreementPoint) bool { return recordOf(p.Years) == i }) {
			words := k.lang.Chart.Records[i].Next
			if first {
				words = k.lang.Chart.Records[i].First
			}
			k.dot(words, AgreementPoint{}, r.radius)
			first = false
		}
	}
	if slices.ContainsFunc(points, func(p AgreementPoint) bool { return p.Low < p.High }) {
		u := k.unit
		k.add(k.lang.Chart.Years, func(c canvas.Canvas, box plane.Rect) {
			var line plane.Path
			x := box.Center().X
			line.Add(plane.Pixel{X: x, Y: box.Top}, plane.Pixel{X: x, Y: box.Bottom})
			c.Stroke(&line, whiskerPen(u))
		})
	}
}

// unlike adds the dots that look otherwise.
func (k *agreementKey) unlike(points []AgreementPoint) {
	if slices.ContainsFunc(points, func(p AgreementPoint) bool { return p.Doubtful }) {
		k.dot(k.lang.Chart.Doubtful, AgreementPoint{Doubtful: true}, records[1].radius)
	}
	if slices.ContainsFunc(points, AgreementPoint.unusual) {
		k.dot(k.lang.Chart.Unusual, AgreementPoint{Early: 1, Late: 1}, records[1].radius)
	}
}

// bands adds the line of the same day and the bands around it.
func (k *agreementKey) bands(points []AgreementPoint) {
	u := k.unit
	k.add(k.lang.Chart.BothSame, func(c canvas.Canvas, box plane.Rect) {
		c.Stroke(plane.LevelLine(box.Left, box.Right, box.Center().Y), samePen(u))
	})
	for i := len(tolerances) - 1; i >= 0; i-- {
		b := tolerances[i]
		words := k.lang.Chart.Within[i].Key
		if n := len(points); n > 1 {
			in := 0
			for _, p := range points {
				if math.Abs(p.departure()) <= float64(b.days) {
					in++
				}
			}
			words = k.lang.Chart.Counted(words, in, n)
		}
		k.add(words, func(c canvas.Canvas, box plane.Rect) { b.swatch(c, box, u) })
	}
}

// swatch draws a sample of a band with its edges.
func (b tolerance) swatch(c canvas.Canvas, box plane.Rect, u float64) {
	c.Fill(plane.RectPath(box), b.tone)
	for _, y := range [...]float64{box.Top, box.Bottom} {
		c.Stroke(b.edge(plane.Pixel{X: box.Left, Y: y}, plane.Pixel{X: box.Right, Y: y}, u), edgePen(u))
	}
}

// width is what the key takes on one line an entry, at most 20 units.
func (k *agreementKey) width() float64 {
	w := 0.0
	for _, e := range k.entries {
		w = max(w, press.SampleFont(k.unit).Width(e.words))
	}
	return math.Min(w+press.SampleWidth(k.unit)+float64(0.6*k.unit)+1, 20*k.unit)
}

// draw lays the key out from a room's top and returns the y under it.
func (k *agreementKey) draw(p *press.Page, room plane.Rect) float64 {
	u := k.unit
	font := press.SampleFont(u)
	y := p.Paragraph(press.LegendText, k.lang.Chart.HowToRead, canvas.Text{At: room.TopLeft(), Font: canvas.Font{Face: canvas.Bold, Size: press.SmallSize(u)}, Color: canvas.TextInk}, room.Width()) + float64(0.45*u)
	for _, e := range k.entries {
		box := plane.Rect{Left: room.Left, Right: room.Left + press.SampleWidth(u), Top: y, Bottom: y + float64(1.25*u)}
		p.Add(func(c canvas.Canvas) { e.sample(c, box) })
		text := canvas.Text{At: plane.Pixel{X: box.Right + float64(0.6*u), Y: y + float64(0.62*u) - float64(font.Size*0.55)}, Font: font, Color: canvas.TextInk}
		y = max(box.Bottom, p.Paragraph(press.LegendText, e.words, text, room.Right-text.At.X)) + float64(0.4*u)
	}
	p.Layout.Legend = plane.Rect{Left: room.Left, Top: room.Top, Right: room.Right, Bottom: y}
	return y
}
