package cli

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

func TestGearListsAreReadAsSpreadsheetsWriteThem(t *testing.T) {
	mask := bath.Gear{Tag: "M-1", Item: "mask", Made: bath.Month{Year: 2021, Of: time.June}}
	tests := []struct {
		name, text string
		want       []bath.Gear
		say        string // of a refusal
	}{
		{"commas", "tag,item,made\nM-1,mask,2021-06\n", []bath.Gear{mask}, ""},
		{"semicolons, a mark before, another order", "\uFEFFMade;Tag;Item\r\n06/2021;M-1;mask\r\n", []bath.Gear{mask}, ""},
		{"empty rows and cells", "tag,item,made\n,,\nM-1,mask,2021-06\nM-2,,\n", []bath.Gear{mask, {Tag: "M-2"}}, ""},
		{"quoted", "tag,issued-to\nM-1,\"Reyes, Ana\"\n", []bath.Gear{{Tag: "M-1", IssuedTo: "Reyes, Ana"}}, ""},
		{"fewer cells than columns", "tag,item,made\nM-2\n", []bath.Gear{{Tag: "M-2"}}, ""},
		{"columns of an export", "tag,stands,washes,last-washed\nM-2,rinse,7,2026-03-01 08:00\n", []bath.Gear{{Tag: "M-2"}}, ""},
		{"a cell that was kept from being a formula", "tag,model\nM-2,'=A1\n", []bath.Gear{{Tag: "M-2", Model: "=A1"}}, ""},
		{"nothing", "", nil, "the list is empty"},
		{"no tag", "item\nmask\n", nil, "there is no column tag"},
		{"more cells than columns", "tag\nM-1,mask\n", nil, "row 2 has more cells than the first row has columns"},
		{"an open quote", "tag\n\"M-1\n", nil, "the list cannot be read"},
		{"a cylinder of wood", "tag,built\nC-1,wood\n", nil, `row 2: cylinder of: "wood" is not one of carbon, wrapped, steel, aluminium`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			rows, err := readGear(strings.NewReader(tt.text))
			if tt.say != "" {
				if err == nil || !strings.Contains(err.Error(), tt.say) {
					t.Errorf("got %v, want %q", err, tt.say)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			var got []bath.Gear
			for _, r := range rows {
				got = append(got, r.gear)
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("-want +got\n%s", diff)
			}
		})
	}
}

func TestAnExportIsTakenBackAsItWas(t *testing.T) {
	gear := []bath.Gear{
		{Tag: "C-1", Item: "cylinder", Built: bath.BuiltCarbon, Made: bath.Month{Year: 2019, Of: time.March}, Requalified: bath.Month{Year: 2024, Of: time.May}, Ends: bath.Month{Year: 2034, Of: time.March}},
		{Tag: "M-1", Item: "mask", Model: `9" face, "wide"`, Serial: "=1+1", IssuedTo: "rig 2, seat 3", Gone: "lost"},
	}
	x := &advise.Snapshot{State: bath.NewState(), Now: time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC)}
	for _, g := range gear {
		x.State.Gear = append(x.State.Gear, bath.Piece{Gear: g})
	}
	var out bytes.Buffer
	if err := writeGear(&out, x); err != nil {
		t.Fatal(err)
	}
	rows, err := readGear(&out)
	if err != nil {
		t.Fatal(err)
	}
	var got []bath.Gear
	for _, r := range rows {
		got = append(got, r.gear)
	}
	if diff := cmp.Diff(gear, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}
