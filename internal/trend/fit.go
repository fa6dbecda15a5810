package trend

// The coefficients of the line, in their order.
const (
	start      = iota // offset at the fill
	perDay            // change a day: negative where the bath falls
	perLoad           // change a load
	firstTopUp        // rise with the first top-up; others follow
)

// ordinary is the standard deviation of a reading about the line that is
// expected of a meter in use, in pH. A reading is never taken for better.
const ordinary = 0.08

// unruly is by how much no bath keeps to a line, in pH.
const unruly = 0.03

// leastReadings are needed before a date is given.
const leastReadings = 2

// Fit is the line through a fill: a start, a fall with days and with loads, and
// a rise with each top-up, by Bayes' rule with a prior, and with weights after
// Student's t that take the force from a blunder.
type Fit struct {
	in      Input
	prior   Prior
	rows    [][]float64 // of each reading: what its coefficients are multiplied by
	extra   []float64   // of each reading: its variance beyond an ordinary one's
	mean    []float64
	cov     matrix
	sigma2  float64
	weights []float64
	t       student // of an error in its standard deviations
}

// Fit fits the line. Without readings it is the prior. The error is one
// sentence that says which figure is none of a fill.
func (in Input) Fit() (*Fit, error) {
	if err := in.check(); err != nil {
		return nil, err
	}
	return in.fit(), nil
}

// rounds of weighting. They are counted, not run to rest, so that the same
// readings give the same numbers on every machine.
const rounds = 12

// fit is Fit of figures that were checked.
func (in Input) fit() *Fit {
	f := in.lay()
	known, b := f.prior.belief(in.TopUps), newBelief(len(f.mean))
	for range rounds {
		b.set(known)
		for i, x := range f.rows {
			b.see(x, in.Offsets[i], f.weights[i]/(f.sigma2+f.extra[i]))
		}
		f.cov = b.settle(f.mean)
		f.weigh()
	}
	f.t = newStudent(f.prior.Worth + f.worth())
	return f
}

// lay is a fit before its first round.
func (in Input) lay() *Fit {
	n := len(in.Days)
	f := &Fit{
		in: in, prior: in.Prior,
		rows: make([][]float64, n), extra: make([]float64, n), weights: make([]float64, n),
		mean: make([]float64, firstTopUp+len(in.TopUps)),
	}
	if f.prior == (Prior{}) {
		f.prior = DefaultPrior()
	}
	f.sigma2 = f.prior.Sigma2
	for i := range n {
		r := in.reading(i)
		f.rows[i], f.extra[i], f.weights[i] = f.row(r.Day, r.Loads), r.extra(), 1
	}
	return f
}

// row is what the coefficients are multiplied by on a day.
func (f *Fit) row(day, loads float64) []float64 {
	x := make([]float64, len(f.mean))
	x[start], x[perDay], x[perLoad] = 1, day, loads
	for i, t := range f.in.TopUps {
		if day >= t.Day {
			x[firstTopUp+i] = 1
		}
	}
	return x
}

// extra is the variance of a reading beyond that of an ordinary one.
func (r Reading) extra() float64 { return max(0, r.U*r.U-ordinary*ordinary) }

// weigh gives each reading its weight by how far it is from the line, and finds
// the scatter anew. Of a reading's error only the share that is ordinary tells
// of the scatter; what the rest hides is taken to be as before.
func (f *Fit) weigh() {
	const heavy = 4 // degrees of freedom of a reading's error: blunders happen
	sum := f.prior.Worth * f.prior.Sigma2
	for i, x := range f.rows {
		e := f.in.Offsets[i] - dot(x, f.mean)
		off, share := e*e+f.cov.spread(x), f.share(i)
		f.weights[i] = (heavy + 1) / (heavy + off*share/f.sigma2)
		sum += f.weights[i]*off*share*share + f.sigma2*(1-share)
	}
	f.sigma2 = sum / (f.prior.Worth + float64(len(f.rows)))
}

// share is the part of a reading's variance that is ordinary.
func (f *Fit) share(i int) float64 { return f.sigma2 / (f.sigma2 + f.extra[i]) }

// worth is how many ordinary readings tell as much of the scatter.
func (f *Fit) worth() float64 {
	var n float64
	for i := range f.rows {
		n += f.share(i)
	}
	return n
}

// Readings is the number of readings behind the fit.
func (f *Fit) Readings() int { return len(f.rows) }

// Mean are the coefficients: the offset at the fill, the change in pH a day and
// a load (negative where the bath falls), and the rise with each top-up.
func (f *Fit) Mean() []float64 { return f.mean }

// Sigma2 is the variance of an ordinary reading about the line, in pH².
func (f *Fit) Sigma2() float64 { return f.sigma2 }

// Weights says how much of each reading was believed: from near 1.25 for one on
// the line down to 0 for a blunder.
func (f *Fit) Weights() []float64 { return f.weights }
