package render

import (
	"image"
	"image/color"
	"math"

	"weekband/grid"
	"weekband/render/plane"
)

// Relief shading lays a thin veil over shaded ground: black on slopes that
// face away from the light, white on those that face it, nothing on level
// ground, whose colour stays that of the legend. A veil of opacity a changes
// the OKLab lightness L of a colour by about −aL or +a(1−L), so these limits
// keep every class, from lightness 0.95 to 0.28, within 0.05 of its own.
const (
	darkMost  = 0.052 // opacity of the black veil at most
	lightMost = 0.06  // of the white one
)

// light is the direction light comes from, as a vector of length 1 on the page
// and up from it, and its part of the whole.
type light struct{ right, down, up, part float64 }

// newLight returns the light from an azimuth, clockwise from the page's up,
// and an altitude over the horizon, in degrees.
func newLight(azimuth, altitude, part float64) light {
	sinAz, cosAz := math.Sincos(azimuth * math.Pi / 180)
	sin, cos := math.Sincos(altitude * math.Pi / 180)
	return light{right: cos * sinAz, down: -cos * cosAz, up: sin, part: part}
}

// lights come from the upper left and from both sides of it, so that ridges
// along the main direction do not vanish. That light stands at the upper left
// is common practice: lit from below, mountains look like valleys.
var lights = [...]light{newLight(315, 45, 0.5), newLight(270, 45, 0.25), newLight(0, 45, 0.25)}

// on returns the light that falls on a slope, by Lambert's cosine law: 0 to 1.
// dx and dy are the rise to the right and downward on the page.
func (l light) on(dx, dy float64) float64 {
	return max(0, (l.up-float64(dx*l.right)-float64(dy*l.down))/math.Sqrt(1+float64(dx*dx)+float64(dy*dy)))
}

// lit returns the light of all lights on a slope.
func lit(dx, dy float64) float64 {
	sum := 0.0
	for _, l := range lights {
		sum += float64(l.part * l.on(dx, dy))
	}
	return sum
}

// slope returns the rise to the right and downward at a place inside, in
// units of heights per place, by Horn's weighted differences of the eight
// neighbours (B. K. P. Horn 1981, "Hill shading and the reflectance map",
// Proc. IEEE 69:14).
func (h *heights) slope(col, row int) (dx, dy float64) {
	up, at, down := h.z[(row-1)*h.cols+col-1:], h.z[row*h.cols+col-1:], h.z[(row+1)*h.cols+col-1:]
	dx = float64((up[2] + float32(2*at[2]) + down[2]) - (up[0] + float32(2*at[0]) + down[0]))
	dy = float64((down[0] + float32(2*down[1]) + down[2]) - (up[0] + float32(2*up[1]) + up[2]))
	return dx / 8, dy / 8
}

// exaggeration returns by how much heights grow for places so many m apart.
// Slopes over long stretches of ground are gentler than those over short ones,
// so small-scale maps need more: two and a half times at 100 m, fifteen times
// at 4 km, where mountains of county and continent then look alike.
func exaggeration(apart float64) float64 {
	return min(max(1, 15*math.Sqrt(apart/4000)), 50)
}

// newRelief returns the veil over a frame. Ground on which the terrain has no
// value, and the outermost places, have none.
func newRelief(v view, frame plane.Rect, terrain *grid.Raster[float32]) *image.NRGBA {
	h := newHeights(v, frame, terrain)
	level := lit(0, 0)
	scale := exaggeration(h.apart) / h.apart
	im := image.NewNRGBA(image.Rect(0, 0, h.cols, h.rows))
	eachRow(h.rows, func(row int) {
		if row == 0 || row == h.rows-1 {
			return
		}
		for col := 1; col < h.cols-1; col++ {
			weight := float64(h.weight[row*h.cols+col])
			if weight == 0 {
				continue
			}
			dx, dy := h.slope(col, row)
			if dx == 0 && dy == 0 {
				continue
			}
			veil := veilOf(lit(dx*scale, dy*scale)/level - 1)
			veil.A = uint8(math.Round(float64(veil.A) * weight))
			im.SetNRGBA(col, row, veil)
		}
	})
	return im
}

// veilOf returns the veil for light that differs from that on level ground by
// a share, −1 to about 0.4. It rises steeply at first and flattens out.
func veilOf(share float64) color.NRGBA {
	const soft = 0.25
	a := math.Tanh(math.Abs(share) / soft)
	if share < 0 {
		return color.NRGBA{A: uint8(math.Round(255 * darkMost * a))}
	}
	return color.NRGBA{R: 255, G: 255, B: 255, A: uint8(math.Round(255 * lightMost * a))}
}
