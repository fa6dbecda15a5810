package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// The numbers, three times and two of them watched, are our judgement: no
// source.
func TestWhoPractisedEnoughMayGetAKey(t *testing.T) {
	roster := started().
		add("8 08:00", &bath.Member{Name: "Tam Okoro", Role: bath.Crew, Platoon: "B"}).
		add("8 08:00", &bath.Member{Name: "Ola Finch", Role: bath.KeyHolder})
	walks := func(b book, guide string, witnesses ...string) book {
		for _, w := range witnesses {
			b = b.add("9 08:00", &bath.Practice{Guide: guide, Witness: w})
			b[len(b)-1].By = "Tam Okoro"
		}
		return b
	}
	wash := func(witnesses ...string) book { return walks(roster, advise.WashGuide, witnesses...) }
	asked := func(why string) advise.Action {
		return advise.Action{
			Urgency: advise.Soon, Kind: "member", Preset: map[string]string{"name": "Tam Okoro", "role": "keyholder"},
			Say: "Tam Okoro: key holder?", Why: why,
		}
	}
	enough := wash("Ola Finch", "nobody", "Kim Vale")
	says(t, "key-holder-Tam Okoro", []moment{
		{"never", roster, "9 09:00", advise.Action{}},
		{"twice, both watched", wash("Ola Finch", "Ola Finch"), "9 09:00", advise.Action{}},
		{"three times, one watched", wash("nobody", "nobody", "Ola Finch"), "9 09:00", advise.Action{}},
		{"three times, two watched", enough, "9 09:00", asked("practised load-and-run 3 times, witnessed twice; a gear officer decides")},
		{"more", walks(enough, advise.WashGuide, "Ola Finch"), "9 09:00", asked("practised load-and-run 4 times, witnessed 3 times; a gear officer decides")},
		{"another guide", walks(roster, "filter", "Ola Finch", "Ola Finch", "Ola Finch"), "9 09:00", advise.Action{}},
		{"has the key", enough.add("9 08:30", &bath.Member{Name: "Tam Okoro", Role: bath.KeyHolder}), "9 09:00", advise.Action{}},
		{"stays crew: asked once", enough.add("9 08:30", &bath.Member{Name: "Tam Okoro", Role: bath.Crew}), "9 09:00", advise.Action{}},
		{"has left", enough.add("9 08:30", &bath.Member{Name: "Tam Okoro", Left: true}), "9 09:00", advise.Action{}},
		{"a red tag hangs", enough.add("9 08:30", &bath.Hold{Cause: bath.HoldLeak, Why: "drips"}), "9 09:00", asked("practised load-and-run 3 times, witnessed twice; a gear officer decides")},
	})
}
