package cause

// Kind says what differs.
type Kind string

// Kinds of differences.
const (
	Version     Kind = "version"
	Normals     Kind = "normals"
	Spread      Kind = "sd"
	Terrain     Kind = "terrain"
	Calibration Kind = "calibration"
	Regions     Kind = "regions"
	Inputs      Kind = "inputs" // files of which the manifests do not tell what they are for
	Recipe      Kind = "recipe"
)

// Cause is one difference between two editions.
type Cause struct {
	Kind Kind   `json:"kind"`
	Text string `json:"text"` // "other normals: 1991–2020 in place of 1981–2010", no stop
	// Moves reports whether it can move a week of a cell. Other outlines move
	// the weeks of regions only; a title moves nothing.
	Moves bool `json:"moves_weeks"`
	// Plain says the same to readers of maps, in a few words, such as "other
	// normals"; empty when it cannot move a week.
	Plain string `json:"-"`
}

// Between returns the differences between two editions, those that can move a
// week first. window names the windows that are compared, by their ids in
// either.
func Between(a, b *Manifest, windows [][2]string) []Cause {
	d := differences{a: a, b: b}
	d.inputs()
	d.calibration()
	d.recipe(windows)
	if a.Version != b.Version {
		d.add(Cause{Kind: Version, Moves: true, Plain: "a newer version of the program", Text: "another version of weekband: " + b.Version + " in place of " + a.Version})
	}
	var out []Cause
	for _, moves := range []bool{true, false} {
		for _, c := range d.list {
			if c.Moves == moves {
				out = append(out, c)
			}
		}
	}
	return out
}

// Moving returns the causes that can move a week.
func Moving(list []Cause) (out []Cause) {
	for _, c := range list {
		if c.Moves {
			out = append(out, c)
		}
	}
	return out
}

// differences collects what differs between two editions.
type differences struct {
	a, b *Manifest
	list []Cause
}

func (d *differences) add(c Cause) { d.list = append(d.list, c) }

// has reports whether a kind is told already.
func (d *differences) has(k Kind) bool {
	for _, c := range d.list {
		if c.Kind == k {
			return true
		}
	}
	return false
}

// calibration compares what offsets of soil come from, unless the files did.
func (d *differences) calibration() {
	if d.a.Calibration != d.b.Calibration && !d.has(Calibration) {
		d.add(Cause{Kind: Calibration, Moves: true, Plain: "another calibration of soil against air", Text: "another calibration: " + orNone(d.b.Calibration) + " in place of " + orNone(d.a.Calibration)})
	}
}

func orNone(text string) string {
	if text == "" {
		return "none"
	}
	return text
}
