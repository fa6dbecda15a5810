package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"bathside/internal/advise"
	"bathside/internal/trend"
)

func (a *app) calcForecast() *cobra.Command {
	return &cobra.Command{
		Use: "forecast", Short: "When a fill will be at its limit", Args: noWords,
		Long:    `Fits one fill and looks ahead. It reads the fill from standard input: readings as days since the fill, pH less the first reading and loads washed by then; the day that it is now; and, where known, the day of a top-up and the loads of each day.`,
		Example: `echo '{"t": [0, 7, 14], "y_minus_baseline": [0, -0.08, -0.19], "cum_loads": [0, 5, 11], "now": 15}' | bathside calc forecast`,
		RunE:    func(*cobra.Command, []string) error { return a.sayForecast() },
	}
}

// forecastAnswer is calc forecast as JSON. The days are left out where there is
// no date.
type forecastAnswer struct {
	Mean   []float64   `json:"mean"` // offset at the fill, change a day, change a load, rise of each top-up
	Sigma2 float64     `json:"sigma2"`
	State  trend.State `json:"state"`
	Q10    *float64    `json:"q10,omitzero"` // days from now, 120 where it is later
	Q50    *float64    `json:"q50,omitzero"`
	Q90    *float64    `json:"q90,omitzero"`
}

func (a *app) sayForecast() error {
	fit, err := a.readFill()
	if err != nil {
		return err
	}
	f := fit.Forecast()
	if !a.flags.json {
		return a.printForecast(fit, f)
	}
	out := forecastAnswer{Mean: fit.Mean(), Sigma2: fit.Sigma2(), State: f.State}
	if f.State != trend.NoDate {
		out.Q10, out.Q50, out.Q90 = &f.Q10, &f.Q50, &f.Q90
	}
	return a.printJSON(out)
}

// readFill reads and fits what stands on standard input. A misspelt name is
// refused: it would leave out what it stands for.
func (a *app) readFill() (*trend.Fit, error) {
	const most = 1 << 20
	text, err := io.ReadAll(io.LimitReader(a.In, most+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("read standard input: %w", err)
	case len(text) == 0:
		return nil, refuse("missing", `no fill was given on standard input: write it like {"t": [0, 7], "y_minus_baseline": [0, -0.08], "cum_loads": [0, 5], "now": 8}`)
	case len(text) > most:
		return nil, refuse("input", "more than a megabyte is no fill: give the readings of one fill")
	}
	var in trend.Input
	if err := decodeStrictly(text, &in); err != nil {
		return nil, refuse("input", `not a fill (%s): write it like {"t": [0, 7], "y_minus_baseline": [0, -0.08], "cum_loads": [0, 5], "now": 8}`, err)
	}
	fit, err := in.Fit()
	if err != nil {
		return nil, refuse("input", "%s", err)
	}
	return fit, nil
}

func (a *app) printForecast(fit *trend.Fit, f trend.Forecast) error {
	say := f.State.Note()
	if say == "" {
		say = fmt.Sprintf("limit likely %s; one time in ten sooner than %s, one in ten later than %s", inDays(f.Q50), beyond(f.Q10), beyond(f.Q90))
	}
	perDay, perLoad := fit.Mean()[1], fit.Mean()[2]
	_, err := fmt.Fprintf(a.text(), "%s\npH changes by %+.4f a day and %+.4f a load\n", say, perDay, perLoad)
	return err
}

func inDays(days float64) string {
	if days >= trend.Horizon {
		return "later than " + beyond(days)
	}
	return "in " + beyond(days)
}

// beyond is a number of days, none past the horizon.
func beyond(days float64) string {
	if days >= trend.Horizon {
		return fmt.Sprintf("%d days", trend.Horizon)
	}
	return advise.DaysSay(days)
}
