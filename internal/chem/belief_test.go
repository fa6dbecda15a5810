package chem

import (
	"math"
	"math/rand/v2"
	"testing"

	"bathside/internal/units"

	"pgregory.net/rapid"
)

func TestQuantiles(t *testing.T) {
	tests := []struct {
		name string
		all  []weighted
		want Range[float64]
	}{
		{"one", []weighted{{3, 0.2}}, Range[float64]{3, 3, 3}},
		{"two alike", []weighted{{2, 1}, {1, 1}}, Range[float64]{1.1, 1.5, 1.9}},
		{"one outweighs", []weighted{{1, 98}, {9, 1}, {5, 1}}, Range[float64]{1 + 2*0.1/0.98, 1 + 2*0.5/0.98, 1 + 2*0.9/0.98}},
		{"the same", []weighted{{4, 1}, {4, 2}, {4, 3}}, Range[float64]{4, 4, 4}},
		{"even", []weighted{{1, 1}, {2, 1}, {3, 1}, {4, 1}, {5, 1}}, Range[float64]{1.25, 3, 4.75}},
	}
	for _, tt := range tests {
		got := rangeOf[float64](tt.all)
		if math.Abs(got.Low-tt.want.Low) > 1e-6 || math.Abs(got.Mid-tt.want.Mid) > 1e-6 || math.Abs(got.High-tt.want.High) > 1e-6 {
			t.Errorf("%s: got %+v, want %+v", tt.name, got, tt.want)
		}
	}
}

// Every soap under consideration gives the first reading, and all are 1
// together.
func TestBeliefGivesTheFirstReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyFamily(t)
		first := Sample{units.PH(rapid.Float64Range(9, 12).Draw(t, "ph")), units.Temperature(rapid.Float64Range(20, 60).Draw(t, "at"))}
		b, err := NewBelief(f, first)
		if err != nil {
			t.Skip(err)
		}
		if b.Known() != f.Known() {
			t.Fatalf("known is %v of %q", b.Known(), f.Name)
		}
		all := 0.0
		for _, p := range b.Families() {
			all += p
		}
		if math.Abs(all-1) > 1e-9 {
			t.Fatalf("families are %g together", all)
		}
		for _, c := range b.cells {
			if s, err := Solve(c.fresh, first.At); err != nil || math.Abs(float64(s.PH-first.PH)) > 1e-5 {
				t.Fatalf("%s x %.2f reads %.6f, %v; want %.6f", c.family.Name, c.factor, float64(s.PH), err, float64(first.PH))
			}
		}
	})
}

func TestBeliefRefuses(t *testing.T) {
	if _, err := (Belief{}).Effect(lowBath(9.60, 50), 1); err == nil {
		t.Error("a belief in nothing foretells an effect")
	}
	if _, err := NewBelief(Family{}, Sample{1.5, 50}); err == nil || err.Error() != "no soap bath reads pH 1.50 at 50 °C: read it again" {
		t.Errorf("pH 1.5: %v", err)
	}
	if _, err := NewBelief(family("soda-ash", 0), Sample{11.2, 50}); err == nil {
		t.Error("soda ash of pH 11.2 at 50 °C is not too strong")
	}
}

// truth is a soap drawn from what NewBelief believes.
func truth(rng *rand.Rand, f Family, first Sample) cell {
	z := gridSigmas + 1
	for math.Abs(z) > gridSigmas {
		z = rng.NormFloat64()
	}
	factor := math.Exp(z * f.sigma())
	return cell{family: f, factor: factor, fresh: must(must(f.fresh(first)).stronger(factor, first))}
}

// history is so many top-ups of a bath of one soap, as two readings with the
// error of their difference tell them.
func (c cell) history(rng *rand.Rand, first Sample, n int) []Topup {
	all := make([]Topup, n)
	for i := range all {
		true1 := lowBath(first.PH-units.PH(0.3+0.4*rng.Float64()), first.At)
		add := true1.Charge() * units.Volume(0.3+0.6*rng.Float64())
		p := must(c.pour(true1))
		rise := must(p.after(add, first.At)) - true1.PH
		read := true1
		read.PH += units.PH(rng.NormFloat64() * riseU / math.Sqrt2)
		after := true1.PH + rise + units.PH(rng.NormFloat64()*riseU/math.Sqrt2)
		all[i] = Topup{Before: read, Added: add, After: Sample{after, first.At}}
	}
	return all
}

// score is how wide ranges are and how often the truth lies in them.
type score struct{ n, inside, width float64 }

func (s *score) add(r Range[units.PH], is units.PH) {
	s.n++
	s.width += float64(r.High - r.Low)
	if r.Low <= is && is <= r.High {
		s.inside++
	}
}

// A soap drawn from the prior, its top-ups, and the range of one more: it
// narrows, and the truth stays inside eight times in ten, as a range promises.
func TestLearningNarrowsAndStaysHonest(t *testing.T) {
	first := Sample{10.10, 50}
	tests := []struct {
		name   string
		told   Family
		truths int
	}{
		{"soda ash, known", family("soda-ash", 0), 120},
		{"soap unknown", Family{}, 24},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(7, 11))
			scores := map[int]*score{0: {}, 5: {}, 20: {}, 40: {}}
			next := lowBath(9.60, 50)
			next.U = 1e-6 // the soap alone
			start := must(NewBelief(tt.told, first))
			for i := range tt.truths {
				f := tt.told
				if !f.Known() {
					f = Families[i%len(Families)]
				}
				c := truth(rng, f, first)
				is := must(must(c.pour(next)).after(4, 50))
				b := start
				for n, topup := range append(c.history(rng, first, 40), Topup{}) {
					if s := scores[n]; s != nil {
						s.add(must(b.Effect(next, 4)), is)
					}
					if n < 40 {
						b = must(b.Learn(topup))
					}
				}
			}
			was := math.Inf(1)
			for _, n := range []int{0, 5, 20, 40} {
				s := scores[n]
				width, part := s.width/s.n, s.inside/s.n
				t.Logf("after %2d top-ups: %.3f wide, the truth inside %3.0f %%", n, width, 100*part)
				if width >= was {
					t.Errorf("after %d top-ups the range is %.3f wide, before %.3f", n, width, was)
				}
				was = width
				if least := 0.8 - 3*math.Sqrt(0.16/s.n); part < least {
					t.Errorf("after %d top-ups the truth is inside %.0f %%, want %.0f %% at least", n, 100*part, 100*least)
				}
			}
		})
	}
}

// A pair tells soaps apart; a drop test tells their strength.
func TestEvidenceFindsTheSoap(t *testing.T) {
	first := Sample{10.10, 50}
	for _, f := range Families {
		t.Run(f.Name, func(t *testing.T) {
			m := must(f.fresh(first))
			cool := Sample{mustSolve(t, m, 22).PH, 22}
			was := must(NewBelief(Family{}, first))
			pair := must(was.LearnPair(first, cool))
			before, after := was.Families()[f.Name], pair.Families()[f.Name]
			if after <= before {
				t.Errorf("its pair makes %s less likely: %.3f, before %.3f", f.Name, after, before)
			}
			drops := Alkalinity{P: must(m.alkalinity(pinkEnd)), T: must(m.alkalinity(totalEnd)), Drop: 0.0005}
			now := lowBath(first.PH, first.At)
			tested := must(pair.LearnTitration(now, drops))
			if last := tested.Families()[f.Name]; last <= after/2 {
				t.Errorf("its drop test makes %s unlikely: %.3f, before %.3f", f.Name, last, after)
			}
			r := tested.Alkalinity()
			if math.Abs(r.Mid-drops.T) > 0.15*drops.T+drops.Drop {
				t.Errorf("alkalinity is believed %.4f, was found %.4f", r.Mid, drops.T)
			}
			known := must(must(NewBelief(f, first)).LearnTitration(now, drops))
			if s := known.Strength(); s.Low > 1.001 || s.High < 0.999 {
				t.Errorf("a plain bath is believed %+v times as strong as one", s)
			}
		})
	}
}

// One wild reading does not decide.
func TestOneWildReadingDoesNotDecide(t *testing.T) {
	first := Sample{10.10, 50}
	rng := rand.New(rand.NewPCG(3, 5))
	c := truth(rng, family("soda-ash", 0), first)
	b := must(NewBelief(family("soda-ash", 0), first))
	for _, topup := range c.history(rng, first, 20) {
		b = must(b.Learn(topup))
	}
	wild := Topup{Before: lowBath(9.60, 50), Added: 1, After: Sample{11.5, 50}}
	now := lowBath(9.60, 50)
	a, z := must(b.Effect(now, 4)), must(must(b.Learn(wild)).Effect(now, 4))
	if math.Abs(float64(a.Mid-z.Mid)) > 0.02 {
		t.Errorf("a wild reading moves %+v to %+v", a, z)
	}
}

func TestLearnRefuses(t *testing.T) {
	b := must(NewBelief(Family{}, Sample{10.10, 50}))
	tests := []struct {
		name string
		got  func() (Belief, error)
		want string
	}{
		{"no bath", func() (Belief, error) { return b.Learn(Topup{Added: 1}) }, "0.0 L is no bath: give its volume, like 240L"},
		{"too much", func() (Belief, error) {
			return b.Learn(Topup{Before: lowBath(9.6, 50), Added: 70, After: Sample{10, 50}})
		}, "70.0 L is more soap than a whole new charge of 7.3 L: drain and refill instead"},
		{"wild u", func() (Belief, error) { return b.Learn(Topup{Before: lowBath(9.6, 50), U: -1}) }, "an uncertainty of -1 pH is none of a reading: give 0 to 2"},
		{"no after", func() (Belief, error) { return b.Learn(Topup{Before: lowBath(9.6, 50), After: Sample{10, 99}}) }, "99 °C is outside what the chemistry is known for: give a temperature from 0 °C to 80 °C (32 °F to 176 °F)"},
		{"no pair", func() (Belief, error) { return b.LearnPair(Sample{10, 50}, Sample{10, 50}) }, "50 °C and 50 °C do not make a pair: let the cup cool by at least 10 °C (18 °F) and read it again"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := tt.got(); err == nil || err.Error() != tt.want {
				t.Errorf("got  %v\nwant %s", err, tt.want)
			}
		})
	}
}
