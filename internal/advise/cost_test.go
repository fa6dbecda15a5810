package advise_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"testing"
	"time"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// renewalRow is a value of testdata/renewal/renewal.csv.
func renewalRow(t *testing.T, quantity string) float64 {
	t.Helper()
	f, err := os.Open("../../testdata/renewal/renewal.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		if row[0] == "deterministic" && row[1] == quantity {
			v, err := strconv.ParseFloat(row[2], 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
	}
	t.Fatalf("no %q in the table", quantity)
	return 0
}

// priced is a station with the costs of the table: 21.25 for a top-up of a jug,
// 154.15 for a refill with two. Its fills before that of March were topped up so
// often and lasted so many days, one after the other.
func priced(past ...cycle) book {
	b := setUp().add("1 09:20", &bath.Setting{
		SoapPrice: new(10.0), HourPrice: new(22.5), TopupTime: units.Minutes(30), RefillTime: units.Minutes(150), RefillPrice: new(77.9),
	})
	from := at("2024-03-01 08:00")
	when := func(after time.Duration) string { return from.Add(after).Format("2006-01-02 15:04") }
	for _, p := range past {
		b = b.add(when(0), &bath.Fill{VolumeL: units.Gallons(70)}).add(when(time.Minute), &bath.Dose{VolumeL: units.Gallons(2)})
		for range p.topUps {
			b = b.add(when(time.Hour), &bath.Dose{VolumeL: units.Gallons(1)})
		}
		lasted := time.Duration(p.days * 24 * float64(time.Hour))
		b = b.add(when(lasted), &bath.Drain{VolumeL: units.Gallons(70), Route: bath.RouteHauler})
		from = from.Add(lasted + time.Hour)
	}
	return b
}

type cycle struct {
	days   float64
	topUps int
}

// begun opens the fill of March, washes so often a day in it, and lets it come
// down, a reading a week.
func (b book) begun(loads int, phs ...units.PH) book {
	for _, e := range started()[len(setUp()):] {
		b = b.add(e.At.In(denver).Format("2006-01-02 15:04"), e.Body)
	}
	for i := range loads * 7 * len(phs) {
		when := at("2 23:00").AddDate(0, 0, i/loads).Add(time.Duration(i%loads) * time.Minute)
		b = b.add(when.Format("2006-01-02 15:04"), wash(50, bath.ResultClean))
	}
	return b.fall(phs...)
}

var (
	slowly  = []units.PH{9.98, 9.90, 9.82, 9.72, 9.60}
	quickly = []units.PH{9.85, 9.60}
)

// Source: testdata/renewal/renewal.csv: gains of 30 days times 0.8^k. With five
// top-ups a cycle lasts 110.68 days and costs 2.353 a day, the least there is:
// top up while the next gain is cheaper a day than that.
func TestTheCostRuleGoesBothWays(t *testing.T) {
	best := cycle{30 * (1 - 0.262144) / (1 - 0.8), 5} // 0.8⁶ is 0.262144
	near(t, "a day of the past", (154.15+5*21.25)/best.days, renewalRow(t, "g(5 top-ups) $/day"), 1e-6)
	proves(t, "cost", []proof{
		{"a top-up that lasts pays", priced(best).begun(1, slowly...), week(5, "08:05"), "topping up costs 1.40 a day it gains; fills so far cost 2.35 a day", more},
		{"one that does not last", priced(best).begun(8, quickly...), week(2, "08:05"), "topping up costs 2.76 a day it gains; fills so far cost 2.35 a day", drain},
		{"no prices", setUp().begun(8, quickly...), week(2, "08:05"), "", more},
	})
}

// The long run is the costs of all fills over the days of all, those that are
// only summed up too. Before one is over it is the open one as it would be.
func TestTheLongRun(t *testing.T) {
	past := []cycle{{40, 0}, {60, 1}, {30, 2}, {50, 0}}
	long := (4*154.15 + 3*21.25) / 180
	for name, tt := range map[string]struct {
		past []cycle
		want float64
	}{
		"four fills": {past, long},
		"one fill":   {past[:1], 154.15 / 40},
	} {
		x := priced(tt.past...).begun(1, slowly...).look(t, week(5, "08:05"))
		d, _ := x.Decide()
		near(t, name, longRun(t, d), tt.want, 0.005)
	}
	d, _ := priced().begun(1, slowly...).look(t, week(5, "08:05")).Decide()
	near(t, "the first fill", longRun(t, d), *d.Refill.PerDay, 0.005)
}

// longRun is what the fills so far cost a day, as the decision says it.
func longRun(t *testing.T, d advise.Decision) (day float64) {
	t.Helper()
	var topUp float64
	if _, err := fmt.Sscanf(reason(d, "cost"), "topping up costs %f a day it gains; fills so far cost %f a day", &topUp, &day); err != nil {
		t.Fatalf("%v in %+v", err, d.Reasons)
	}
	return day
}
