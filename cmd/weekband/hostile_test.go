package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"weekband/regions/naming"
)

// attacks are names of regions and places that would break an output that took
// them for anything but data.
var attacks = []string{
	`<script>hacked=1;alert(1)</script>`,
	`"><img src=x onerror=hacked=1>`,
	`' onmouseover='hacked=1' x='`,
	"</script><script>hacked=1</script>\u2028//",
	`</title></style><svg onload=hacked=1>`,
	`javascript:hacked=1`,
	`]]>&amp;<!-- &#60;b&#62;`,
	`{{.Title}} ${hacked=1} %s %n \u003cb`,
	`=HYPERLINK("https://ashholt.invalid","Ash")`,
	`+1+1`, `-2+3|'calc'!A1`, `@SUM(1)`, `＝1+1`, "\t=1+1", "\r=2+2",
	`Ash;=1+1`, "Ash\t=1+1", `Ash",=1+1,"`,
	`../../../etc/ashholt`, `C:\Ash\Holt`, `CON`, `nul.txt`, `COM1`, `index`,
	"Birkmoor", "BIRKMOOR", "Birkmoor ", "birkmoor.",
	strings.Repeat("Longholt ", 22) + "on", // as long as it may be
	strings.Repeat("W", 200),
	"🌾🌾🌾", "村の畑", "אבג מרו", "e\u0301\u0302\u0303\u0304 combining", "\u202egnp.ashholt",
	"Ash\nBEGIN:VEVENT\nSUMMARY:Holt", "Ash\r\nX-ASH;X=\"Y\":Z\\, \\n",
	`(Ash) Tj ET /JavaScript (app.alert\(1\))`, "%PDF-1.7 endobj", "\x1b[31mAsh\x07\x00", "- ash: *holt", "The last, without a place",
}

// hostile are two editions of one small territory: one with attacks for names,
// and its twin with harmless names.
var hostile struct {
	sync.Once
	evil, twin, log string
}

const hostileTitle = `Soil </title><script>hacked=1</script> & "y" 'z' =1+1 🌾`

// hostileEditions builds both once. They have one window and no further maps.
func hostileEditions(t *testing.T) (evil, twin, log string) {
	t.Helper()
	unraced(t)
	hostile.Do(func() {
		dir, _ := unpacked(t)
		home, err := os.MkdirTemp("", "weekband-hostile-")
		if err != nil {
			t.Fatal(err)
		}
		evil, twin := filepath.Join(home, "evil", "out"), filepath.Join(home, "twin", "out")
		hostile.log = buildNamed(t, dir, evil, hostileTitle, `<b onclick="hacked=1">Credits</b> =1+1`, func(i int) (id, name string) {
			return fmt.Sprintf("%s%d", []string{"=1+", `"><b`, "../", "a;b"}[i%4], i), attacks[i]
		})
		buildNamed(t, dir, twin, "Soil of Merrow", "Credits", func(i int) (id, name string) {
			return fmt.Sprintf("C%d", i), fmt.Sprintf("Region %d", i)
		})
		hostile.evil, hostile.twin = evil, twin
	})
	if hostile.twin == "" {
		t.Fatal("the editions were not built")
	}
	return hostile.evil, hostile.twin, hostile.log
}

// buildNamed builds an edition of small squares about Sorrelbridge, each with a
// place in its middle, and returns what the build said.
func buildNamed(t *testing.T, dir, out, title, credits string, named func(i int) (id, name string)) string {
	t.Helper()
	type object map[string]any
	var features []any
	var list bytes.Buffer
	table := csv.NewWriter(&list)
	table.Write([]string{"name", "lat", "lon", "code"})
	for i := range attacks {
		w, s := -49.44+0.24*float64(i%7), 36.88+0.24*float64(i/7)
		id, name := named(i)
		features = append(features, object{"type": "Feature", "properties": object{"code": id, "name": name}, "geometry": object{
			"type": "Polygon", "coordinates": [][][2]float64{{{w, s}, {w + 0.24, s}, {w + 0.24, s + 0.24}, {w, s + 0.24}, {w, s}}},
		}})
		if i < len(attacks)-1 {
			name = strings.ReplaceAll(name, "\x00", "") // which tables may not hold
			table.Write([]string{name, fmt.Sprint(s + 0.12), fmt.Sprint(w + 0.12), id})
		}
	}
	table.Flush()
	text, err := json.Marshal(object{"type": "FeatureCollection", "features": features})
	if err != nil {
		t.Fatal(err)
	}
	recipe, err := json.Marshal(object{ // which is YAML too
		"title": title, "edition": 2027, "credits": credits, "address": "https://soil.merrow.invalid/weeks", "published": "2026-12-01",
		"normals": object{"files": []string{"normals.tif"}, "unit": "C", "period": "1991-2020"},
		"soil":    object{"calibration": "offsets.csv"},
		"windows": []any{object{"id": "spring", "title": title, "threshold": "55 °F", "direction": "warming"}},
		"regions": []any{object{"file": "hostile.geojson", "id": "code", "name": "name"}},
		"grid":    object{"box": []float64{-49.6, 36.8, -47.6, 38.4}},
		"places":  "hostile.csv", "size": "800", "maps": "none", "handouts": "some",
	})
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{"hostile.geojson": text, "hostile.csv": list.Bytes(), "hostile.yaml": recipe} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	code, _, log := weekband(t, "build", filepath.Join(dir, "hostile.yaml"), "--out", out)
	if code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	return log
}

// wantNames are the names that an edition should hold.
func wantNames() []string {
	var want []string
	for _, name := range attacks {
		want = append(want, naming.Plain(name))
	}
	return want
}
