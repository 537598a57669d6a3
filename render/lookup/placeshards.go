package lookup

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"unicode/utf8"

	"weekband/grid"
	"weekband/regions/places"
)

// Region is a region as lookups name it.
type Region struct {
	Name, ID string
	Slug     string      // names the files of its page
	Inside   grid.LonLat // a point within it
}

// PlaceShard tells of the places of which a start begins with Key, folded. The
// starts of a place are its name, each later word of it with what follows, and
// its code. Where a shard with the key would be too large, it holds only the
// places of which a start is the key, and longer keys the others: a query
// needs the shards whose key begins with it or with whose key it begins.
type PlaceShard struct {
	Key   string `json:"key"`
	Count int    `json:"count"`
}

// mostPlaces is how many places a shard holds at most, when longer keys can
// tell them apart.
const mostPlaces = 4000

// longestKey is how many letters a key has at most: it names a file.
const longestKey = 30

const regionsScript = shardDir + "/regions.js"

// PlaceFile returns the name of the shard with a key: Latin letters and digits
// as they are, spaces as _, others by their Unicode number, -43a-.
func PlaceFile(key string) string {
	var b strings.Builder
	for _, r := range key {
		switch {
		case r == ' ':
			b.WriteByte('_')
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		default:
			fmt.Fprintf(&b, "-%x-", r)
		}
	}
	return shardDir + "/places-" + b.String() + ".js"
}

// place is a line of a shard: name, latitude and longitude to 0.0001°, code,
// region, rank, without empty ones at the end.
type place struct{ places.Place }

func (p place) MarshalJSON() ([]byte, error) {
	line := []any{p.Name, rounded(p.At.Lat), rounded(p.At.Lon), p.Code, p.Region, p.Rank}
	for line[len(line)-1] == "" || line[len(line)-1] == 0 {
		line = line[:len(line)-1]
	}
	return json.Marshal(line)
}

func (p *place) UnmarshalJSON(text []byte) error {
	line := []any{&p.Name, &p.At.Lat, &p.At.Lon, &p.Code, &p.Region, &p.Rank}
	if err := json.Unmarshal(text, &line); err != nil {
		return err
	}
	if len(line) < 3 || len(line) > 6 {
		return fmt.Errorf("a place of %d values, want 3 to 6", len(line))
	}
	return nil
}

// rounded returns degrees to 0.0001, 11 m at most.
func rounded(degrees float64) float64 { return math.Round(degrees*1e4) / 1e4 }

func writeRegions(root *os.Root, x *Index, list []Region) error {
	if len(list) == 0 {
		return nil
	}
	x.Regions = regionsScript
	lines := make([][]any, len(list))
	for i, r := range list {
		lines[i] = []any{r.Name, r.ID, r.Slug, rounded(r.Inside.Lat), rounded(r.Inside.Lon)}
	}
	script, err := call("weekbandRegions", lines)
	if err != nil {
		return fmt.Errorf("lookup regions: %w", err)
	}
	return writeFile(root, regionsScript, script)
}

func writePlaces(root *os.Root, x *Index, list []places.Place) error {
	list = slices.Clone(list)
	slices.SortStableFunc(list, places.Compare)
	x.Places, x.Known = []PlaceShard{}, len(list)
	shards := map[string][]int{}
	all := make([]int, len(list))
	starts := make([][]string, len(list))
	for i := range list {
		all[i], starts[i] = i, list[i].Starts()
	}
	split(shards, "", all, starts)
	for key := range shards {
		x.Places = append(x.Places, PlaceShard{Key: key, Count: len(shards[key])})
	}
	slices.SortFunc(x.Places, func(a, b PlaceShard) int { return strings.Compare(a.Key, b.Key) })
	for _, s := range x.Places {
		var lines []place
		for _, i := range shards[s.Key] {
			lines = append(lines, place{list[i]})
		}
		script, err := call("weekbandPlaces", s.Key, lines)
		if err != nil {
			return fmt.Errorf("lookup places: %w", err)
		}
		if err := writeFile(root, PlaceFile(s.Key), script); err != nil {
			return err
		}
	}
	return nil
}

// split spreads the places of a key over shards.
func split(shards map[string][]int, key string, members []int, starts [][]string) {
	if key != "" && len(members) <= mostPlaces || utf8.RuneCountInString(key) == longestKey {
		shards[key] = members
		return
	}
	longer := map[string][]int{}
	for _, i := range members {
		for _, start := range starts[i] {
			rest, ok := strings.CutPrefix(start, key)
			if !ok {
				continue
			}
			next := key
			for _, r := range rest {
				next += string(r)
				break
			}
			if had := longer[next]; len(had) == 0 || had[len(had)-1] != i {
				longer[next] = append(had, i)
			}
		}
	}
	for next, list := range longer {
		if next == key { // of them a start ends here
			shards[key] = list
			continue
		}
		split(shards, next, list, starts)
	}
}

// PlaceList reads all places, sorted as places.Compare does.
func (e *Edition) PlaceList() ([]places.Place, error) {
	var list []places.Place
	for _, s := range e.Places {
		var key string
		var lines []place
		if err := readCall(e.fsys, PlaceFile(s.Key), "weekbandPlaces", &key, &lines); err != nil {
			return nil, err
		}
		if key != s.Key || len(lines) != s.Count {
			return nil, fmt.Errorf("%s: %d places with key %q, the index says %d; build the edition again", PlaceFile(s.Key), len(lines), key, s.Count)
		}
		for _, l := range lines {
			list = append(list, l.Place)
		}
	}
	slices.SortFunc(list, places.Compare)
	return slices.Compact(list), nil // a place lies in several shards
}
