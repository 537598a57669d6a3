// Package caution holds the words that go wherever weekband gives advice. It
// takes nothing and gives text; it never knows what was advised.
package caution

// Short is the one line that fits on a map.
const Short = "Typical conditions, not a forecast. Check your own soil. The product label is the law; local rules and licensed practice come first."

// All lists the cautions in full, as common extension practice prints them.
// Each is a sentence or two of its own.
var All = [...]string{
	"These are typical conditions of past years, not a forecast. Check your own soil with a thermometer before you act.",
	"The product label is the law: rate, timing, turf species, intervals and protection are what the label says.",
	"Local rules and licensed practice come before anything here; some products are for licensed applicators only.",
	"Keep treatments off water and off hard surfaces from which rain would carry them.",
	"Most pre-emergent treatments also stop grass seed: mind the reseeding interval on the label before you seed or lay sod.",
	"Keep children and pets off until the treatment is dry, or as long as the label says.",
}
