package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// standing is a tank of 0.25 m² that is kept hot, filled to its mark and looked
// at when the clock is past its change.
func standing(lid bool) book {
	return bare().
		add("1 10:00", &bath.Tank{VolumeL: 227.125, SurfaceM2: 0.25, Lid: &lid, LowL: 190}).
		add("1 10:00", &bath.Setting{KeptHot: new(true)}).
		add("1 11:00", &bath.Fill{VolumeL: 227.125}).
		add("9 08:00", looked(0))
}

// looked is the mark looked at, and so much water poured in for vapour.
func looked(missing units.Volume) *bath.Water {
	return &bath.Water{VolumeL: missing, Cause: bath.CauseEvaporation}
}

func (b book) about(t *testing.T, now string) advise.About {
	t.Helper()
	a := b.look(t, now).About
	if a == nil {
		t.Fatal("nothing is said of the level")
	}
	return *a
}

// Source: testdata/heat/evaporation.csv, 50 °C in a room of 20 °C and 50 %: what
// an open bath and a lidded one of 0.25 m² give off in a day. An hour a day with
// the lid up is from memory.
func TestTheLevelFallsByWhatEvaporates(t *testing.T) {
	var open, lid float64 // kg a day
	for _, r := range readHeat(t, "evaporation.csv") {
		if r["Tw_C"] == 50 && r["Ta_C"] == 20 && r["RH"] == 0.5 {
			open, lid = r["open_0.25"], r["lid_0.25"]
		}
	}
	// looked at once, 8 days after the fill: the mark was right, so little was
	// learned of the lid
	b := bare().
		add("1 10:00", &bath.Tank{VolumeL: 227.125, SurfaceM2: 0.25}).
		add("1 10:00", &bath.Setting{KeptHot: new(true)}).
		add("9 08:00", &bath.Fill{VolumeL: 227.125})
	near(t, "an open bath after a day", 227.125-float64(b.about(t, "10 08:00").VolumeL), open, 0.02*open)
	near(t, "an open bath after three days", 227.125-float64(b.about(t, "12 08:00").VolumeL), 3*open, 0.06*open)
	lidded := b.add("9 08:00", &bath.Tank{Lid: new(true)})
	near(t, "a lidded bath after three days", 227.125-float64(lidded.about(t, "12 08:00").VolumeL), 3*(23*lid+open)/24, 0.02*open)
	heated := b.add("9 08:00", &bath.Setting{KeptHot: new(false)})
	if lost := 227.125 - float64(heated.about(t, "10 08:00").VolumeL); lost <= 0 || lost >= open/2 {
		t.Errorf("heated for washing it loses %.1f L a day, kept hot %.1f", lost, open)
	}
}

// A look settles the level to 5 mm of water (from memory), and it gets less sure
// from then on.
func TestALookSettlesTheLevel(t *testing.T) {
	b := standing(false)
	at := b.about(t, "9 08:00")
	near(t, "at the look", float64(at.VolumeL), 227.125, 1e-9)
	near(t, "its uncertainty, 5 mm under 0.25 m²", float64(at.U), 1.25, 1e-9)
	last := at
	for _, now := range []string{"9 20:00", "10 08:00", "11 08:00", "13 08:00"} {
		is := b.about(t, now)
		if is.VolumeL >= last.VolumeL || is.U <= last.U {
			t.Errorf("%s: %.1f ± %.1f L after %.1f ± %.1f", now, float64(is.VolumeL), float64(is.U), float64(last.VolumeL), float64(last.U))
		}
		last = is
	}
	short := b.add("13 08:00", &bath.Water{VolumeL: 5, BelowL: new(units.Volume(20)), Cause: bath.CauseEvaporation})
	near(t, "filled up in part", float64(short.about(t, "13 08:00").VolumeL), 227.125-20+5, 1e-9)
	near(t, "spilled since", float64(short.add("13 08:00", &bath.Spill{VolumeL: 10, To: "floor"}).about(t, "13 08:00").VolumeL), 227.125-20+5-10, 1e-9)
}

// Under a lid that leaks more than it was taken to, more water is missing at each
// look, and the level is told to fall faster; so it is where the bath is kept
// hot all day.
func TestMakeUpTeachesTheLid(t *testing.T) {
	const open = 9.7956 // kg a day at 50 °C from 0.25 m², testdata/heat/evaporation.csv
	made := func(share float64, weeks int) float64 {
		b := standing(true)
		for day := 10; day < 10+3*weeks; day += 3 {
			b = b.add(at("1 08:00").AddDate(0, 0, day+1).Format("2006-01-02 15:04"), looked(units.Volume(3*share*open)))
		}
		last := b[len(b)-1].At
		return float64(227.125-b.about(t, last.In(denver).AddDate(0, 0, 1).Format("2006-01-02 15:04")).VolumeL) / open
	}
	untaught := made(0, 0)
	tight, leaky := made(0.08, 4), made(0.5, 4)
	if !(tight < leaky && leaky > 1.5*untaught) {
		t.Errorf("of an open bath's loss a day: untaught %.2f, with a tight lid %.2f, with a leaky one %.2f", untaught, tight, leaky)
	}
	near(t, "a lid that lets half through, and is up for an hour", leaky, (23*0.5+1)/24, 0.12)
	if few := made(0.5, 1); few < untaught || few > leaky {
		t.Errorf("after one look %.2f, after four %.2f, before %.2f", few, leaky, untaught)
	}
}

// An open bath in a draught loses more than is reckoned: there is no lid to learn
// of, and the level is told all the same.
func TestAnOpenBathThatLosesMoreHasALevel(t *testing.T) {
	b := standing(false).add("12 08:00", looked(45)).add("15 08:00", looked(45))
	near(t, "a day after the last look", float64(b.about(t, "16 08:00").VolumeL), 227.125-9.7956, 0.1)
}

// Water for what went out on the gear tells nothing of the lid.
func TestCarryOutTeachesNothing(t *testing.T) {
	b := standing(true)
	without := b.add("12 08:00", looked(0)).about(t, "15 08:00")
	with := b.add("12 08:00", &bath.Water{VolumeL: 15, Cause: bath.CauseCarryOut}).add("12 08:00", looked(0)).about(t, "15 08:00")
	if with.VolumeL < without.VolumeL-0.5 {
		t.Errorf("got %.1f L, without %.1f", float64(with.VolumeL), float64(without.VolumeL))
	}
}

// The heater's low mark is in sight where it may be reached within a year, the
// soonest day before the likely one, and both come nearer with the level.
func TestTheLowMarkInSight(t *testing.T) {
	open := standing(false)
	a := open.about(t, "9 08:00")
	if a.Low == nil || !a.Low.Soonest.Before(a.Low.About) {
		t.Fatalf("got %+v", a.Low)
	}
	near(t, "days until 190 L", a.Low.About.Sub(at("9 08:00")).Hours()/24, (227.125-190)/9.7956, 0.1)
	if later := open.about(t, "10 08:00").Low; later.About.Sub(a.Low.About).Abs().Hours() > 1 {
		t.Errorf("a day later it is %v, and was %v", later.About, a.Low.About)
	}
	if filled := open.add("11 08:00", looked(19)).about(t, "11 08:00").Low; !filled.About.After(a.Low.About) {
		t.Errorf("filled up it is %v, before %v", filled.About, a.Low.About)
	}
	if none := open.add("9 08:01", &bath.Tank{LowL: 1}); none.about(t, "9 08:05").Low == nil {
		t.Error("an open bath kept hot is down to a litre within a year")
	}
	if dry := bare().add("2 08:00", &bath.Fill{VolumeL: 265}).about(t, "3 08:00"); dry.Low != nil {
		t.Errorf("no low mark is set, and it is at %+v", dry.Low)
	}
	if x := setUp().look(t, "3 08:00"); x.About != nil {
		t.Errorf("an empty bath stands at %+v", x.About)
	}
}
