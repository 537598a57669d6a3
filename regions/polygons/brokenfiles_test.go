package polygons_test

// broken is a file of testdata/broken and what becomes of it. The words of an
// error, or those of one warning after the other; without any the file is
// sound, though it may look odd.
type broken struct {
	file     string
	refused  string
	warnings []string
	regions  int     // 1 if not said
	area     float64 // of all regions by hand, in squared degrees; 4 if not said
	valid    bool    // ogr2ogr -makevalid gives the same ground
}

const (
	cut     = "cut at the antimeridian"
	degrees = "reproject the file to longitude and latitude"
)

var brokenFiles = []broken{
	// How polygons are drawn.
	{file: "bow-tie.geojson", warnings: []string{"1 × rings crossed themselves; ground that they surround an odd number of times was kept; first in feature 1"}, area: 2, valid: true},
	{file: "figure-eight.geojson", warnings: []string{"rings crossed themselves"}, area: 2, valid: true},
	{file: "star.geojson", warnings: []string{"rings crossed themselves"}, area: starTips, valid: true},
	{file: "touches-itself.geojson", warnings: []string{"came by one of their corners again"}, area: 2, valid: true},
	{file: "spike.geojson", warnings: []string{"ran a stretch out and back; such spikes were cut off"}, valid: true},
	{file: "bridge-to-a-hole.geojson", warnings: []string{"ran a stretch out and back"}, area: 3.75, valid: true},
	{file: "inverted.geojson", warnings: []string{"2 × rings ran the wrong way round (RFC 7946 3.1.6) and were turned"}, area: 3},
	{file: "antimeridian-jump.geojson", warnings: []string{"were taken to cross the antimeridian and cut there"}},
	{file: "antimeridian-run-on.geojson", warnings: []string{cut}},
	{file: "antimeridian-bow-tie.geojson", warnings: []string{"taken to cross the antimeridian", "crossed themselves"}, area: 2},
	{file: "longitudes-0-to-360.geojson", warnings: []string{"longitudes beyond ±180° were turned by 360°"}},
	{file: "round-the-pole.geojson", refused: "feature 1: a ring goes round the pole; split it at longitude 180"},
	{file: "sliver.geojson", regions: 2, area: 4 + 1e-5},
	{file: "flat.geojson", warnings: []string{"out and back", "1 × polygons without any ground were dropped", "1 × features without a polygon were left out"}},
	{file: "hole-outside.geojson", warnings: []string{"1 × holes outside their polygon were left out"}},
	{file: "hole-is-all.geojson", warnings: []string{"holes crossed another ring of their polygon or ran along it", "polygons without any ground", "left out"}, area: 1},
	{file: "hole-in-hole.geojson", warnings: []string{"1 × holes within holes were left out"}, area: 3},
	{file: "hole-across.geojson", warnings: []string{"ground outside all holes was kept"}, area: 3.75},
	{file: "unclosed.geojson", warnings: []string{"1 × rings were not closed and have been"}},
	{file: "three-positions.geojson", warnings: []string{"rings of fewer than four positions were dropped", "left out"}},
	{file: "repeated-positions.geojson", warnings: []string{"3 × positions repeated the one before and were dropped"}},
	{file: "polygons-overlap.geojson", warnings: []string{"polygons of one region lay over each other and were united; first in region 1"}, area: 7},
	{file: "polygon-within.geojson", warnings: []string{"polygons of one region lay over each other"}},

	// Numbers.
	{file: "nan.geojson", refused: "nan.geojson:2:132: NaN is no number in JSON (RFC 8259, 6); leave out what is not known"},
	{file: "infinity.geojson", refused: "Infinity is no number in JSON"},
	{file: "too-large.geojson", refused: "feature 1: coordinates[0][2][0] is 1e400; want degrees"},
	{file: "words-for-numbers.geojson", refused: `feature 1: coordinates[0][0][0] is "-50"; want a number`},
	{file: "null-number.geojson", refused: "coordinates[0][2][1] is null; want a number"},
	{file: "null-position.geojson", refused: "coordinates[0][2] is null; want a list"},
	{file: "heights.geojson"},
	{file: "one-number.geojson", refused: "feature 1: a position of 1 numbers; want longitude and latitude"},
	{file: "long-numbers.geojson"},
	{file: "swapped.geojson", refused: "position (38, -110) is outside longitudes ±180 and latitudes ±90; latitude and longitude are probably swapped"},
	{file: "metres.geojson", refused: "these look like projected metres or feet; " + degrees},
	{file: "feet.geojson", refused: degrees},
	{file: "damaged-numbers.geojson", refused: "no position on Earth; were they scaled or damaged?"},
	{file: "crs-utm.geojson", refused: `positions are on "urn:ogc:def:crs:EPSG::32622", by its member "crs"; want longitude and latitude on WGS 84`},
	{file: "crs-wgs84.geojson"},
	{file: "crs-close.geojson", warnings: []string{"EPSG::4269 and were taken for WGS 84, which is a metre or two off"}},
	{file: "crs-by-link.geojson", warnings: []string{`the member "crs" is {"type":"link","properti…, which names no reference system`}},

	// Geometries.
	{file: "too-deep.geojson", refused: "coordinates[0][0][0] is a list; want a number: the lists lie too deep"},
	{file: "not-deep-enough.geojson", refused: "coordinates[0][0] is -50; want a list: the lists lie not deep enough"},
	{file: "no-coordinates.geojson", refused: `feature 1: there is no member "coordinates"`},
	{file: "other-geometry.geojson", refused: `feature 1: geometry type "Circle"; want Polygon or MultiPolygon`},
	{file: "no-features.geojson", refused: "no feature holds a polygon with any area; the file holds no features at all"},
	{file: "null-geometry.geojson", refused: "1 × features without a polygon were left out"},
	{file: "geometry-collection.geojson", warnings: []string{"1 × points or lines among the polygons were left out"}, area: 5},
	{file: "points-and-lines.geojson", refused: "2 × points or lines among the polygons were left out"},
	{file: "features-no-list.geojson", refused: `features-no-list.geojson:1:40: the member "features" is of the wrong kind: object; want GeoJSON or TopoJSON`},
	{file: "other-document.geojson", refused: `type "Table"; want a GeoJSON FeatureCollection or polygon`},

	// Ids, read from the property code.
	{file: "id-of-two.geojson", refused: `feature 2: id "A" is both "Ashholt" and "Birkmoor"; choose a property whose values differ (id: …); there are code, name`},
	{file: "id-twice.geojson", warnings: []string{"features repeated the id and name of an earlier one and were joined to it; first in feature 2", "lay over each other and were united"}, area: 7},
	{file: "id-missing.geojson", refused: `feature 2 has no value for property "code", others have; give it one or choose another of code, name`},
	{file: "id-null.geojson", refused: `feature 2 has no value for property "code"`},
	{file: "id-object.geojson", refused: `feature 2 has an object for property "code"; want a text or a number`},
	{file: "id-list.geojson", refused: `feature 1 has a list for property "code"`},
	{file: "id-true.geojson", refused: `feature 1 has true for property "code"`},
	{file: "id-number.geojson", regions: 3, area: 6},
	{file: "id-by-case.geojson", warnings: []string{"ids differ from an earlier one in capitals or blanks only, and are regions of their own; first in feature 2"}, regions: 2, area: 5},
	{file: "id-by-blanks.geojson", warnings: []string{"in capitals or blanks only"}, regions: 2, area: 5},
	{file: "id-unknown.geojson", refused: `no feature has a property "code"; there are kode, name`},
	{file: "key-twice.geojson", warnings: []string{`line 2: the key "code" stands twice in one object, and the later value counts; 2 such keys in all`}},

	{file: "id-of-nothing.geojson", refused: "feature 1 has an id of nothing but control characters"},
	{file: "name-of-nothing.geojson", warnings: []string{"names or ids held control characters, which were left out"}},
	{file: "name-too-long.geojson", refused: `feature 1 has an id or name of 279 letters, "The land between the bro…"; want at most 200: choose another property`},
	{file: "control-characters.geojson", warnings: []string{"1 × names or ids held control characters, which were left out; first in feature 1"}, regions: 2, area: 5},

	// TopoJSON.
	{file: "arcs-sound.topojson"},
	{file: "arc-past-the-last.topojson", refused: "geometry 1 (id A): names arc 7, and the topology has 2, numbered from 0, or from -1 when run backwards"},
	{file: "arc-before-the-first.topojson", refused: "names arc -9, and the topology has 2"},
	{file: "arc-of-half.topojson", refused: "geometry 1 (id A): the arcs are not those of a Polygon"},
	{file: "arcs-none.topojson", warnings: []string{"2 × geometries without a polygon were left out; first in geometry 1 (id A)", "1 × rings of fewer than four positions"}},
	{file: "arcs-apart.topojson", warnings: []string{"1 × arcs of a ring did not meet and were joined by a straight line"}},
	{file: "arcs-of-nothing.topojson", refused: "rings of fewer than four positions were dropped"},
	{file: "arcs-null.topojson", refused: "arcs[0][1][1] is null; want a number"},
	{file: "arcs-not-there.topojson", refused: `there is no member "arcs"`},
	{file: "arcs-bow-tie.topojson", warnings: []string{"rings crossed themselves"}, area: 2},
	{file: "transform-huge.topojson", refused: "no position on Earth"},
	{file: "transform-to-metres.topojson", refused: degrees},
	{file: "objects-none.topojson", refused: "the topology holds no objects"},

	// The text.
	{file: "truncated.geojson", refused: "was it cut off? Fetch or write the file again"},
	{file: "empty.geojson", refused: "empty.geojson: is empty; want GeoJSON or TopoJSON"},
	{file: "blank.geojson", refused: "is empty"},
	{file: "a-page.geojson", refused: "a-page.geojson:1:1: invalid character '<' looking for beginning of value; want GeoJSON or TopoJSON"},
	{file: "bom.geojson"},
	{file: "crlf.geojson"},
	{file: "utf-16-little.geojson", warnings: []string{"is UTF-16, and was read as that"}},
	{file: "utf-16-big.geojson", warnings: []string{"is UTF-16, and was read as that"}},
	{file: "utf-16-unmarked.geojson", warnings: []string{"is UTF-16, and was read as that"}},
	{file: "latin-1.geojson", warnings: []string{`latin-1.geojson:2: is not UTF-8 and was taken for Latin-1 (Windows-1252), as in "Sôlenne"; if that is wrong, save it as UTF-8`}},
	{file: "more-after-the-end.geojson", refused: `more-after-the-end.geojson:4:1: "];\n" stands after the end of the document; remove it`},
	{file: "one-to-a-line.geojson", warnings: []string{"holds 2 features one after the other, which were read as one collection"}, regions: 2, area: 5},
	{file: "sequence.geojsons", warnings: []string{"holds 2 features one after the other"}, regions: 2, area: 5},
	{file: "packed.geojson.gz"},
	{file: "packed-and-cut.geojson.gz", refused: "the packed data are cut off or damaged"},
	{file: "archive.zip", refused: "is a zip archive; unpack it"},
}

// starTips is the area of star.geojson: five tips about a pentagon that the
// outline surrounds twice. By hand, about (-49, 38): sides cross at (∓1/3, 2),
// (∓11/19, 24/19) and (0, 0.8).
const starTips = 1.0/3 + 2*49.0/114 + 2*8.8/19
