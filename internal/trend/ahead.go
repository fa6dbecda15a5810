package trend

import "math"

// ahead is what will be washed from now on.
type ahead struct {
	rate    float64 // loads a day
	rateVar float64
	plan    []float64 // loads of each day, again from the start when they end; or nil
}

// burst is the variance of the loads of a day over their mean: an incident
// brings several at once.
const burst = 3

// ahead judges by the days gone by, the newer ones more, and by the plan if
// there is one.
func (in *Input) ahead() ahead {
	const (
		memory  = 28 // days after which a day counts half
		a0, b0  = 2, 1.75
		regimes = 0.25 // a rate may change by so much of itself
	)
	a, b := float64(a0), float64(b0)
	days := in.DailyLoads[max(0, len(in.DailyLoads)-int(in.Now)):]
	for i, loads := range days {
		age := float64(len(days) - 1 - i)
		u := math.Exp2(-age / memory)
		a += u * loads / burst
		b += u / burst
	}
	w := ahead{rate: a / b, rateVar: a / (b * b)}
	if len(in.Planned) > 0 {
		w.plan, w.rate = in.Planned, mean(in.Planned)
		return w
	}
	w.rateVar += regimes * w.rate * regimes * w.rate
	return w
}

// by are the loads from now until tau days on, with their variance.
func (w ahead) by(tau float64) (loads, variance float64) {
	loads = w.rate * tau
	if w.plan != nil {
		loads = w.planned(tau)
	}
	return loads, burst*loads + w.rateVar*tau*tau
}

// planned are the loads of the plan until tau days from now.
func (w ahead) planned(tau float64) float64 {
	n := len(w.plan)
	whole := int(tau)
	loads := float64(whole/n) * w.rate * float64(n)
	for _, l := range w.plan[:whole%n] {
		loads += l
	}
	return loads + (tau-float64(whole))*w.plan[whole%n]
}

func mean(xs []float64) float64 {
	var sum float64
	for _, x := range xs {
		sum += x
	}
	return sum / float64(len(xs))
}
