package advise_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"
	"time"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// readHeat is a table of testdata/heat, its cells by column.
func readHeat(t *testing.T, name string) (rows []map[string]float64) {
	t.Helper()
	f, err := os.Open("../../testdata/heat/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	cells, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range cells[1:] {
		row := map[string]float64{}
		for i, column := range cells[0] {
			if row[column], err = strconv.ParseFloat(line[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// tankOf is the bath of the tables, full, with its soap in and in service.
func tankOf(w units.Power, lid, insulated bool) book {
	return bare().
		add("1 10:00", &bath.Tank{VolumeL: 227.125, HeaterW: w, SurfaceM2: 0.30, Lid: &lid, Insulated: &insulated}).
		add("2 07:30", &bath.Fill{VolumeL: 227.125}).
		add("2 08:00", &bath.Dose{VolumeL: 7})
}

func (b book) temp(when time.Time, c float64, heating bool) book {
	return b.add(when.In(denver).Format("2006-01-02 15:04"), &bath.Temp{BathC: units.Temperature(c), Heat: &heating})
}

// warmUps logs so many warm-ups as the table has them, a day apart, and a last
// cold morning with the heater just on.
func (b book) warmUps(rows []map[string]float64, n int) book {
	for day := range n {
		from := at("3 06:00").AddDate(0, 0, day)
		for _, r := range rows {
			b = b.temp(from.Add(time.Duration(r["t_s"])*time.Second), r["T_C"], true)
		}
	}
	return b.temp(at("13 06:00"), 20, true)
}

func readyIn(t *testing.T, b book) time.Duration {
	t.Helper()
	ready, ok := b.look(t, "13 06:01").ReadyAt()
	if !ok {
		t.Fatal("it never gets warm")
	}
	return ready.Sub(at("13 06:00"))
}

// Source: testdata/heat/fit_case.csv, a bath warmed with 6 kW. With 9 kW on its
// plate it is ready later than the plate says; a short stretch tells less of it
// than a whole warm-up, and several tell most.
func TestReadyAtLearnsThePower(t *testing.T) {
	rows := readHeat(t, "fit_case.csv")
	plate, weak := tankOf(9000, true, false), tankOf(6000, true, false)
	byPlate, truth := readyIn(t, plate.warmUps(nil, 0)), readyIn(t, weak.warmUps(nil, 0))
	short, one, five := readyIn(t, plate.warmUps(rows[:3], 1)), readyIn(t, plate.warmUps(rows, 1)), readyIn(t, plate.warmUps(rows, 5))
	if !(byPlate < short && short < one && one <= five+time.Minute && five < truth+3*time.Minute) {
		t.Errorf("by the plate %s, after 7 °C %s, after a warm-up %s, after five %s; in truth %s", byPlate, short, one, five, truth)
	}
	near(t, "minutes after five warm-ups", five.Minutes(), truth.Minutes(), 0.05*truth.Minutes())
	near(t, "minutes, where the plate is right", readyIn(t, weak.warmUps(rows, 5)).Minutes(), truth.Minutes(), 0.03*truth.Minutes())
}

// Source: testdata/heat/cooldown.csv. A tank set down as lidded and insulated that
// cools like an open, bare one is warm later; one that cools as it should is
// warm when it should be.
func TestReadyAtLearnsTheLoss(t *testing.T) {
	nights := func(column string, n int) book {
		b := tankOf(2000, true, true)
		for night := range n {
			for _, r := range readHeat(t, "cooldown.csv")[:9] {
				b = b.temp(at("3 20:00").AddDate(0, 0, night).Add(time.Duration(r["t_h"])*time.Hour), r[column], false)
			}
		}
		return b.temp(at("13 06:00"), 20, true)
	}
	said, like, unlike := readyIn(t, nights("", 0)), readyIn(t, nights("lid_on_insul_C", 4)), readyIn(t, nights("lid_off_bare_C", 4))
	near(t, "minutes, as it was set down", like.Minutes(), said.Minutes(), 0.02*said.Minutes())
	if unlike < said+15*time.Minute {
		t.Errorf("with an open tank's loss %s, as set down %s", unlike, said)
	}
	if once := readyIn(t, nights("lid_off_bare_C", 1)); once <= said || once > unlike+time.Minute {
		t.Errorf("after one night %s, after four %s, as set down %s", once, unlike, said)
	}
}

// Nobody says whether the heater was on: nothing is learned.
func TestNothingIsLearnedFromSilence(t *testing.T) {
	b := tankOf(9000, true, false)
	for _, r := range readHeat(t, "fit_case.csv") {
		when := at("3 06:00").Add(time.Duration(r["t_s"]) * time.Second)
		b = b.add(when.Format("2006-01-02 15:04"), &bath.Temp{BathC: units.Temperature(r["T_C"])})
	}
	if got, want := readyIn(t, b.temp(at("13 06:00"), 20, true)), readyIn(t, tankOf(9000, true, false).warmUps(nil, 0)); got != want {
		t.Errorf("got %s, by the plate %s", got, want)
	}
}

// Source: testdata/heat/heatup_times.csv: 6 kW takes 1.675 h from 15 to 52 °C
// under a lid, insulated. Half as long again is common practice, no source.
func TestSlowWarmUp(t *testing.T) {
	expected := 1.675
	warm := func(hours float64, from, to units.Temperature, on, still *bool) book {
		start := at("3 06:00")
		end := start.Add(time.Duration(hours * float64(time.Hour)))
		return tankOf(6000, true, true).add("2 09:00", &bath.Tank{SetC: new(units.Temperature(54))}).
			add(start.Format("2006-01-02 15:04"), &bath.Temp{BathC: from, Heat: on}).
			add(end.Format("2006-01-02 15:04"), &bath.Temp{BathC: to, Heat: still})
	}
	yes, no := new(true), new(false)
	slow := warm(1.6*expected, 15, 52, yes, yes)
	tests := []struct {
		name string
		book book
		now  string
		want bool
	}{
		{"as expected", warm(expected, 15, 52, yes, yes), "4 07:00", false},
		{"1.45 times", warm(1.45*expected, 15, 52, yes, yes), "4 07:00", false},
		{"1.55 times", warm(1.55*expected, 15, 52, yes, yes), "4 07:00", true},
		{"nobody says that it was still on", warm(1.55*expected, 15, 52, yes, nil), "4 07:00", true},
		{"it was off at the end: nobody knows since when", warm(1.6*expected, 15, 52, yes, no), "4 07:00", false},
		{"nobody says that it was on", warm(1.6*expected, 15, 52, nil, yes), "4 07:00", false},
		{"it was off", warm(1.6*expected, 15, 52, no, yes), "4 07:00", false},
		{"9 °C tell too little", warm(1.6*expected, 43, 52, yes, yes), "4 07:00", false},
		{"at the set point the thermostat had cut in", warm(1.6*expected, 15, 53.5, yes, yes), "4 07:00", false},
		{"from one evening to the next", warm(22, 15, 52, yes, yes), "4 07:00", false},
		{"cooled", warm(1.6*expected, 52, 15, yes, yes), "4 07:00", false},
		{"a week ago", slow, "10 11:00", false},
		{"measured once", tankOf(6000, true, true).add("3 06:00", &bath.Temp{BathC: 15, Heat: yes}), "4 07:00", false},
		{"drained", slow.add("3 12:00", &bath.Drain{VolumeL: 200, Route: bath.RouteHauler}), "4 07:00", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := tt.book.action(t, tt.now, "slow-warm-up")
			if (got.Say != "") != tt.want {
				t.Errorf("got %q: %q", got.Say, got.Why)
			}
		})
	}
	const why = "the warm-up took 2 h 40 min, expected was about 1 h 40 min: look at the level, then at the heater: scale, or an element that is dead"
	if got := slow.action(t, "4 07:00", "slow-warm-up"); got.Urgency != advise.Soon || got.Kind != "duty" || got.Why != why {
		t.Errorf("got %+v", got)
	}
}
