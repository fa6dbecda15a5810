package trend

import "math"

// Cusum is a two-sided cumulative sum chart of values that are 0 on average
// while nothing changes. It forgets K of each value and signals past H.
type Cusum struct {
	K, H float64
	High float64 // sum of what lies above
	Low  float64 // sum of what lies below
}

// Add takes the next value and says whether the chart signals.
func (c *Cusum) Add(x float64) bool {
	c.High = max(0, c.High+x-c.K)
	c.Low = max(0, c.Low-x-c.K)
	return c.High > c.H || c.Low > c.H
}

// BathChart is a chart of how far each reading was from what those before it
// led to expect. It charts that and not the pH, for the pH falls by design.
type BathChart struct {
	Points  []Point
	Changed bool    // the last point signals
	Since   float64 // day of the reading that raised the signal
}

// Point is one reading on the chart, from the second one on.
type Point struct {
	Day       float64
	Residual  float64 // in standard deviations, within 4
	High, Low float64 // sums of the chart
	Signal    bool
}

// BathChart charts a fill, with a reference of 0.5 and a limit of 3 rather than
// the usual 4: the residuals are quieter than the textbook's, for each also
// carries the doubt about the line. Of 100 made-up fills without a change 2
// signal falsely within 8 readings, and 5 where the pH wanders.
//
// One doubtful reading is enough for a signal. It must be confirmed, or left out.
func (in Input) BathChart() (BathChart, error) {
	if err := in.check(); err != nil {
		return BathChart{}, err
	}
	var chart BathChart
	sums := Cusum{K: 0.5, H: 3}
	for i := 1; i < len(in.Days); i++ {
		past := in.before(i)
		u := past.fit().residual(in.reading(i))
		signal := sums.Add(u)
		if signal && !chart.Changed {
			chart.Since = in.Days[i]
		}
		chart.Changed = signal
		chart.Points = append(chart.Points, Point{in.Days[i], u, sums.High, sums.Low, signal})
	}
	return chart, nil
}

// residual is how far a reading is off as a value of the normal distribution
// that is just as rare.
func (f *Fit) residual(r Reading) float64 {
	const most = 4 // beyond it the tail of the distribution is a guess
	c := f.check(r)
	u := math.Sqrt2 * math.Erfcinv(c.P) // P counts both sides
	return math.Copysign(min(u, most), c.Z)
}
