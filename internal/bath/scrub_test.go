package bath_test

import (
	"encoding/json"
	"strings"
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// TestImportedTextIsHarmless reads bodies as an import or a stream brings
// them: no text of theirs can move a cursor or turn a line around.
func TestImportedTextIsHarmless(t *testing.T) {
	for kind, raw := range map[bath.Kind]string{
		"handover":  `{"note":"\u001b[2Jpacks\u202e drip"}`,
		"hold":      `{"kind":"leak","why":"\u0007drips\u200b"}`,
		"wash":      `{"items":[{"item":"mask","count":1,"name":"Ma\u001bsk"}],"soil":"normal","time_s":240,"bath_c":40,"result":"clean","note":"\u0000x"}`,
		"drain":     `{"volume_l":200,"route":"sewer","under":"permit\u001b[2J 12","outside":["\u202eno permission"],"paper":"\u0007b"}`,
		"discharge": `{"stream":"liquid","route":"sewer","from":"the\u200b district","title":"ru\u001bles","dated":"2025"}`,
		"disposal":  `{"line":3,"route":"hauler","allowed":"\u202eR","outside":["\u0007x"]}`,
		"gear":      `{"tag":"M\u001b-1","item":"mask","model":"full\u202e face","made":"2021-06"}`,
		"inspect":   `{"tags":["M-1\u0007","\u200bM-2"],"findings":"none","action":"none"}`,
		"setting":   `{"station":"Mill\u009b Road"}`,
		"start":     `{"items":[{"item":"mask","count":1,"name":"Mask","paper":"rev\u001b[2J C"}],"time_s":240,"bath_c":40,"override":"x","passed":["a\u202egain"]}`,
	} {
		body, err := bath.Decode(kind, []byte(raw))
		if err != nil {
			t.Fatal(err)
		}
		e := bath.Entry{Body: body, By: "Le\u0007e"}
		e.Scrub()
		rest, err := json.Marshal(body)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range e.By + e.Say(units.US) + strings.ReplaceAll(string(rest), `\u`, "\u202e") {
			if r < 0x20 || r >= 0x7f && r < 0xa0 || r == 0x202e || r == 0x200b {
				t.Errorf("%s: %q is left", kind, r)
			}
		}
	}
}
