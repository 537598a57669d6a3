package polygons

import (
	"encoding/json"
	"fmt"

	"github.com/paulmach/orb"

	"weekband/regions/naming"
)

// feature is a polygon with its description, before it has an identity.
type feature struct {
	where      string // for messages: "feature 3"
	id         string // the feature's own id, "" for none
	properties map[string]json.RawMessage
	shape      orb.MultiPolygon
}

// place names a feature for messages: "feature 3 (id 17001)".
func place(kind string, ordinal int, id string) string {
	if id = naming.Plain(id); id == "" { // it goes to terminals
		return fmt.Sprintf("%s %d", kind, ordinal)
	}
	return fmt.Sprintf("%s %d (id %s)", kind, ordinal, id)
}
