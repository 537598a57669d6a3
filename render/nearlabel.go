package render

import (
	"cmp"
	"math"
	"slices"

	"weekband/render/canvas"
	"weekband/render/lettering"
	"weekband/render/plane"
	"weekband/render/press"
)

// NearLabel is a name on a near view. X is its middle, Y the baseline of its
// first line. Pages write it in a sans serif of Size pixels, Leading from line
// to line; there is room for letters a tenth wider than those it was measured
// with.
type NearLabel struct {
	Region        int
	Lines         []string
	X, Y          float64
	Size, Leading float64
	Own           bool // the region the view is of: set in bold
}

const (
	nearSize = 11 // px
	ownSize  = 13 // px
	widening = 1.1

	leastNamed = 60 // px², of ground with a name
)

// label places the names: the region's own always, the others, larger ground
// first, where they fit on their ground and cover no other name.
func (l *Locators) label(own int, which []int, outlines []*plane.Path, frame plane.Rect) []NearLabel {
	areas := make([]float64, len(which))
	for k, p := range outlines {
		areas[k] = p.Area()
	}
	p := lettering.NewPlacer(frame, nearSize, plane.Cover{}) // names stand on their own ground, whatever land is around
	var out []NearLabel
	for _, k := range turns(own, which, areas) {
		name, isOwn := l.names[which[k]], which[k] == own
		if name.one[0] == "" || areas[k] < leastNamed && !isOwn {
			continue
		}
		sets, target := name.settings(), outlines[k].Largest().Center()
		if isOwn {
			sets = ownSettings(l.regions[own].Name, frame.Width())
		}
		placed, ok := p.OnGround(sets, plane.NewCover(outlines[k], 2), target)
		if last := sets[len(sets)-1]; !ok && isOwn {
			placed, ok = last.At(heldIn(frame, last, target), press.RegionLabel, lettering.Style{}), true
		}
		if ok {
			p.Take(placed)
			out = append(out, nearLabel(which[k], isOwn, placed))
		}
	}
	return out
}

// turns returns the order in which regions are named: the own first, then
// larger ground first.
func turns(own int, which []int, areas []float64) []int {
	order := make([]int, len(which))
	for k := range order {
		order[k] = k
		if which[k] == own {
			areas[k] = math.Inf(1)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(areas[b], areas[a]) })
	return order
}

// settings returns the ways to set a name, the best first.
func (n nearName) settings() []lettering.Setting {
	font := canvas.Font{Face: canvas.Regular, Size: nearSize}
	set := func(lines []string, wide float64) lettering.Setting {
		return lettering.Setting{Lines: lines, Font: font, Width: widening * wide * nearSize, Height: float64(float64(len(lines)-1)*font.Line()) + nearSize*0.95}
	}
	out := []lettering.Setting{set(n.one, n.wide[0])}
	if n.two != nil {
		out = append(out, set(n.two, n.wide[1]))
	}
	return out
}

// ownSettings returns the ways to set the region's own name; the last is
// narrower than the frame.
func ownSettings(name string, width float64) []lettering.Setting {
	var out []lettering.Setting
	for _, size := range [...]float64{ownSize, nearSize} {
		font := canvas.Font{Face: canvas.Bold, Size: size}
		ways := [][]string{{name}, lettering.Halves(name, font), canvas.Wrap(name, font, width/widening/2)}
		if size == nearSize {
			ways = ways[1:]
		}
		for _, lines := range ways {
			if len(lines) == 0 {
				continue
			}
			s := lettering.NewSetting(lines, font)
			s.Width *= widening
			out = append(out, s)
		}
	}
	return out
}

// heldIn returns the place nearest to one at which a setting lies in a frame.
func heldIn(frame plane.Rect, s lettering.Setting, at plane.Pixel) plane.Pixel {
	const pad = 3
	return plane.Pixel{
		X: max(frame.Left+pad+s.Width/2, min(frame.Right-pad-s.Width/2, at.X)),
		Y: max(frame.Top+pad+s.Height/2, min(frame.Bottom-pad-s.Height/2, at.Y)),
	}
}

func nearLabel(region int, own bool, l lettering.Label) NearLabel {
	first := l.Lines[0]
	n := NearLabel{Region: region, X: inTenth(first.At.X), Y: inTenth(first.At.Y), Size: first.Font.Size, Leading: first.Font.Line(), Own: own}
	for _, t := range l.Lines {
		n.Lines = append(n.Lines, t.String)
	}
	return n
}
