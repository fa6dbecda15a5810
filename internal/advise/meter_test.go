package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// shown is a calibration by the slope that the meter shows.
func shown(pct float64) *bath.Calibration {
	return &bath.Calibration{Meter: "M1", SlopePct: &pct, OffsetMV: new(units.Potential(0)), AtC: new(units.Temperature(25))}
}

// neutral is a dip in the buffer of pH 7.00, far from what a bath reads.
func neutral(ph units.PH) *bath.Calibration {
	return &bath.Calibration{Meter: "M1", Check: &bath.Dip{Buffer: "7.00", AtC: 25, PH: ph}}
}

// Source: rulings of the trade: one dip in the pH 10 buffer within 0.1 is
// checked; nothing for 7 days is used, wider; two buffers after a failed dip. A
// slope below 92 % fails by the practice of chem's judge. The first reading is of
// 2 March, 40 min after two buffers. A week of 168 h from then ends an hour later
// by the clock, which was put forward on the 8th.
func TestWhatAMeterIsWorth(t *testing.T) {
	failed := started().add("6 08:00", dip(10.20))
	tests := []struct {
		name  string
		book  book
		meter string
		when  string
		want  chem.Trust
	}{
		{"calibrated", started(), "M1", "3 08:00", chem.Calibrated},
		{"calibrated that minute", started(), "M1", "2 09:50", chem.Calibrated},
		{"a minute before", started(), "M1", "2 09:49", chem.Unchecked},
		{"a week after", started(), "M1", "9 10:50", chem.Calibrated},
		{"a week and a minute after", started(), "M1", "9 10:51", chem.Unchecked},
		{"a dip within 0.1", started().add("9 08:00", dip(10.11)), "M1", "12 08:00", chem.Checked},
		{"a week after the dip", started().add("9 08:00", dip(10.11)), "M1", "16 08:00", chem.Checked},
		{"a week and a minute after the dip", started().add("9 08:00", dip(10.11)), "M1", "16 08:01", chem.Unchecked},
		{"a dip 0.19 off", failed, "M1", "6 09:00", chem.Failed},
		{"weeks after it", failed, "M1", "20 09:00", chem.Failed},
		{"a good dip does not put it right", failed.add("6 08:10", dip(10.02)), "M1", "6 09:00", chem.Failed},
		{"poor buffers do not", failed.add("6 08:10", shown(88)), "M1", "6 09:00", chem.Failed},
		{"two buffers do", failed.add("6 08:10", twoBuffers()), "M1", "6 09:00", chem.Calibrated},
		{"so does the slope it shows", failed.add("6 08:10", shown(98.3)), "M1", "6 09:00", chem.Calibrated},
		{"a poor slope fails it", started().add("6 08:00", shown(88)), "M1", "6 09:00", chem.Failed},

		{"since the last good check, before the failed one", failed, "M1", "5 08:00", chem.Unchecked},
		{"before the last good check", started().add("5 08:00", dip(10.0)).add("6 08:00", dip(10.20)), "M1", "4 08:00", chem.Calibrated},
		{"it fails twice", failed.add("6 08:10", dip(10.21)), "M1", "6 08:05", chem.Failed},

		{"a good dip in 7.00 renews nothing", started().add("9 08:00", neutral(7.00)), "M1", "12 08:00", chem.Unchecked},
		{"nor spoils anything", started().add("6 08:00", neutral(7.00)), "M1", "5 08:00", chem.Calibrated},
		{"nor later", started().add("6 08:00", neutral(7.00)), "M1", "6 09:00", chem.Calibrated},
		{"nor puts it right", failed.add("6 08:10", neutral(7.00)), "M1", "6 09:00", chem.Failed},
		{"a bad dip in 7.00 fails it", started().add("6 08:00", neutral(7.30)), "M1", "6 09:00", chem.Failed},

		{"its name in small letters", started(), "m1", "3 08:00", chem.Calibrated},
		{"failed under the other name", failed, "m1", "6 09:00", chem.Failed},
		{"another meter", started(), "M2", "3 08:00", chem.Unchecked},
		{"another meter, while this one failed", failed, "M2", "6 09:00", chem.Unchecked},
		{"no name", started(), "", "3 08:00", chem.Unchecked},
		{"strips", started(), "STRIPS", "3 08:00", chem.Strip},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := tt.book.add(tt.when, sample(10.05, 50, tt.meter))
			j := b.look(t, "20 10:00").PH
			for _, r := range j.Readings {
				if r.Seq != b.lastSeq() {
					continue
				}
				if r.Standing.Trust != tt.want {
					t.Errorf("got %v, want %v", r.Standing.Trust, tt.want)
				}
				if doubted := r.Doubt.Kind == advise.DoubtMeter; doubted != (tt.want == chem.Failed) {
					t.Errorf("doubt: %+v", r.Doubt)
				}
			}
		})
	}
}

// Two readings by one meter share its error, under whatever letters its name
// was typed; two without a name are taken to be by one.
func TestOneMeterUnderTwoNames(t *testing.T) {
	for _, names := range [][2]string{{"M1", "m1"}, {"", ""}} {
		b := warmed().
			add("2 10:30", &bath.Reading{PH: 10.10, SampleC: 50, Meter: names[0], Baseline: true}).
			add("3 08:00", sample(10.00, 50, names[1]))
		if got := b.look(t, "3 09:00").PH.U; got > 0.198-0.05 {
			t.Errorf("%q: u of the drop is %.3f, that of two meters", names, got)
		}
	}
}

// An imported line may hold a check that holds nothing: it is no ground to trust
// a meter.
func TestAnEmptyCheckFails(t *testing.T) {
	b := started().add("6 08:00", &bath.Calibration{Meter: "M1"}).add("6 09:00", sample(10.05, 50, "M1"))
	x := b.look(t, "6 09:05")
	if r := x.PH.Latest; r.Standing.Trust != chem.Failed || r.Doubt.Why != "meter M1 had failed on 6 Mar: nothing was measured" {
		t.Errorf("got %v, %q", r.Standing.Trust, r.Doubt.Why)
	}
	if checks := x.Checks(); len(checks) != 2 || !checks[0].OK || checks[1].OK {
		t.Errorf("got %+v", checks)
	}
}

// Source of the form: "M1, calibrated 2 Mar", as the form of a reading shows it.
func TestMeterSay(t *testing.T) {
	failed := started().add("6 08:00", dip(10.20))
	tests := []struct {
		name, now, want string
		book            book
	}{
		{"no meter", "2 09:00", "", dosed()},
		{"calibrated", "3 08:00", "M1, calibrated yesterday", started()},
		{"calibrated before any reading", "2 10:00", "M1, calibrated today", warmed()},
		{"a dip", "10 08:00", "M1, checked yesterday", started().add("9 08:00", dip(10.05))},
		{"a week ago", "12 08:00", "M1, last checked 2 Mar: less sure until it is dipped again", started()},
		{"failed", "8 08:00", "M1, failed its check Friday", failed},
		{"failed, a good dip since", "8 08:00", "M1, failed its check Friday", failed.add("7 08:00", dip(10.02))},
		{"failed, a dip in 7.00 since", "8 08:00", "M1, failed its check Friday", failed.add("7 08:00", neutral(7.00))},
		{"put right", "8 08:00", "M1, calibrated yesterday", failed.add("7 08:00", twoBuffers())},
		{"a dip in 7.00 is none", "4 08:00", "M1, calibrated Monday", started().add("3 08:00", neutral(7.00))},
		{"another meter", "3 09:00", "M2, never checked: its readings count as less sure", started().add("3 08:00", sample(10, 50, "M2"))},
		{"strips between", "3 09:00", "M1, calibrated yesterday", started().add("3 08:00", sample(10, 50, "strips"))},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.book.look(t, tt.now).MeterSay(); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

// What a check means is told before it is kept.
func TestAMeterCheckIsPreviewed(t *testing.T) {
	for want, c := range map[string]*bath.Calibration{
		"carbonate reads 10.05 and should read 10.01: checked.":                                                                dip(10.05),
		"7.00 reads 7.00 and should read 7.00: right, but it tells nothing of a bath at 9 to 11.5; dip in carbonate or borax.": neutral(7.00),
		"": {Meter: "M1"},
	} {
		if got := started().look(t, "3 08:00").PreviewBody(c); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// What was read before the last good check stays as sure as it was when the
// meter fails later.
func TestAFailedCheckReachesBackToTheLastGoodOneOnly(t *testing.T) {
	b := started().add("3 08:00", sample(10.00, 50, "M1")).add("5 08:00", dip(10.02))
	before := b.look(t, "5 09:00").PH.U
	after := b.add("6 08:00", dip(10.20)).look(t, "6 09:00").PH
	if after.U != before || after.State != advise.PHOK {
		t.Errorf("u of the drop went from %.3f to %.3f, %s", before, after.U, after.State)
	}
}
