package trend

import (
	"fmt"
	"math"
)

// Prior is what is believed of a bath before its fill has readings of its own:
// how fast it falls, and how far a reading is from the truth. The zero Prior is
// [DefaultPrior].
type Prior struct {
	PerDay  float64 `json:"per_day"`  // fall in pH a day
	PerLoad float64 `json:"per_load"` // fall in pH a load

	DayVar  float64 `json:"day_var"` // variances of the two, and their covariance
	LoadVar float64 `json:"load_var"`
	Cov     float64 `json:"cov"`

	Sigma2 float64 `json:"sigma2"` // of a reading about the line, pH²
	Worth  float64 `json:"worth"`  // Sigma2 is as sure as from so many readings
}

// DefaultPrior is for a bath without history. Its figures were chosen by trial
// on made-up baths whose rates are spread about 0.004 a day and 0.008 a load.
func DefaultPrior() Prior {
	return Prior{
		PerDay: 0.005, DayVar: 0.005 * 0.005,
		PerLoad: 0.010, LoadVar: 0.008 * 0.008,
		Sigma2: ordinary * ordinary, Worth: 6,
	}
}

// What every fill starts with, whatever its history, in pH.
const (
	startSpread = 0.08 // of the true start about the first reading
	topUpRise   = 0.20 // of a top-up of which nothing is known
	topUpSpread = 0.12
)

// History is the prior that past fills leave, oldest first, when each is fitted
// with what those before it left. A fill with fewer than two readings says
// nothing. The Prior of the past inputs is not looked at.
func History(past []Input) (Prior, error) {
	prior := DefaultPrior()
	for i, in := range past {
		if len(in.Days) < leastReadings {
			continue
		}
		in.Prior = prior
		f, err := in.Fit()
		if err != nil {
			return Prior{}, fmt.Errorf("past fill %d: %w", i+1, err)
		}
		prior = f.Next()
	}
	return prior, nil
}

// Next is what the fill leaves for the one after it. The rates are widened, for
// no two fills are alike: the prior never gets tight enough to outvote a fill's
// own readings.
func (f *Fit) Next() Prior {
	const (
		widen      = 1.3
		dayDrift   = 0.0008 // from one fill to the next
		loadDrift  = 0.001
		leastRate  = 1e-4
		worthMore  = 4
		worthLimit = 20
	)
	return Prior{
		PerDay:  max(-f.mean[perDay], leastRate),
		PerLoad: max(-f.mean[perLoad], leastRate),
		DayVar:  widen*f.cov[perDay][perDay] + dayDrift*dayDrift,
		LoadVar: widen*f.cov[perLoad][perLoad] + loadDrift*loadDrift,
		Cov:     widen * f.cov[perDay][perLoad],
		Sigma2:  f.sigma2,
		Worth:   min(f.prior.Worth+worthMore, worthLimit),
	}
}

// check refuses a prior that no fill can have left.
func (p Prior) check() error {
	if p == (Prior{}) {
		return nil
	}
	spread := p.DayVar > 0 && p.LoadVar > 0 && p.DayVar*p.LoadVar > p.Cov*p.Cov
	const most = 1000 // beyond what any figure can come to
	known := math.Abs(p.PerDay)+math.Abs(p.PerLoad)+p.DayVar+p.LoadVar <= most
	noise := p.Sigma2 > 0 && p.Sigma2 <= most && p.Worth > 0 && p.Worth <= most
	if !spread || !known || !noise {
		return fmt.Errorf("a prior of %+v is none that a fill leaves: give the one of the last fill, or none", p)
	}
	return nil
}

// belief is the prior as the fit needs it, with the coefficients of a start and
// of top-ups.
func (p Prior) belief(topUps []TopUp) belief {
	b := newBelief(firstTopUp + len(topUps))
	b.k[start][start] = 1 / (startSpread * startSpread)
	det := p.DayVar*p.LoadVar - p.Cov*p.Cov
	b.k[perDay][perDay] = p.LoadVar / det
	b.k[perLoad][perLoad] = p.DayVar / det
	b.k[perDay][perLoad] = -p.Cov / det
	b.k[perLoad][perDay] = -p.Cov / det
	for _, c := range []int{perDay, perLoad} {
		b.km[c] = -b.k[c][perDay]*p.PerDay - b.k[c][perLoad]*p.PerLoad
	}
	for i, t := range topUps {
		c := firstTopUp + i
		rise := topUpRise
		if t.Rise > 0 {
			rise = t.Rise
		}
		b.k[c][c] = 1 / (topUpSpread * topUpSpread)
		b.km[c] = b.k[c][c] * rise
	}
	return b
}
