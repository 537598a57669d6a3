package main

// The parts of which names of regions and places are made up, none a word
// that a reader would take for a real place.
var (
	nameFirst = []string{
		"Bra", "Bel", "Cor", "Cul", "Dra", "Dul", "El", "Fen", "Fal", "Gan", "Gor", "Hal", "Her", "Il", "Jor", "Kel", "Kir",
		"Lan", "Lor", "Mar", "Mel", "Nar", "Nol", "Or", "Os", "Pel", "Quen", "Ral", "Ros", "Sar", "Sel", "Tal", "Tor", "Ul",
		"Ven", "Vor", "Wen", "Wol", "Yar", "Yel",
	}
	nameSecond = []string{
		"", "a", "an", "ar", "da", "del", "den", "e", "en", "er", "i", "in", "la", "lan", "le", "mer", "na", "o", "on", "or",
		"ra", "ren", "ri", "sa", "sen", "ta", "ter", "va", "ven", "wa",
	}
	regionLast = []string{
		"brook", "dale", "down", "fell", "garth", "land", "marsh", "mark", "moor", "reach", "shire", "side", "vale", "wold",
	}
	placeLast = []string{
		"bridge", "bury", "by", "cross", "end", "ford", "gate", "ham", "haven", "hythe", "ley", "mere", "stead", "thorp",
		"ton", "wick",
	}
)

// coinage makes up names, each once.
type coinage struct {
	seed  noise
	tried int64
	used  map[string]bool
}

func newCoinage(seed noise) *coinage { return &coinage{seed: seed, used: map[string]bool{}} }

// name returns a name with one of the endings that it has not returned before.
// When the plain ones run short, longer ones follow.
func (c *coinage) name(last []string) string {
	for {
		c.tried++
		h := c.seed.hash(c.tried, 0)
		part := func(of []string) string {
			n := uint64(len(of))
			one := of[h%n]
			h /= n
			return one
		}
		name := part(nameFirst) + part(nameSecond)
		for range len(c.used) / 5000 {
			name += part(nameSecond)
		}
		name += part(last)
		if !c.used[name] {
			c.used[name] = true
			return name
		}
	}
}
