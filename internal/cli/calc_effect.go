package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"bathside/internal/chem"
	"bathside/internal/units"
)

// effect is what calc effect is asked.
type effect struct {
	family                 string
	carbon, silicon, boron float64
	first                  units.PH
	now                    chem.Bath
	add                    units.Volume
}

func (a *app) calcEffect() *cobra.Command {
	var e effect
	cmd := &cobra.Command{
		Use: "effect", Short: "What more soap would do to the pH", Args: noWords,
		Long:    "What a bath that has come down would read with more of the same soap, and with a whole new charge. While the soap type is unknown the answer is a range.",
		Example: "bathside calc effect --family buffered-carbonate --carbon 0.02 --baseline 10.10 --at 50C --ph 9.60 --volume 227L --ratio 30 --add 1L",
		RunE:    func(*cobra.Command, []string) error { return a.sayEffect(e) },
	}
	f := cmd.Flags()
	familyFlag(cmd, &e.family)
	f.Var(quantity{&e.carbon, "0.02"}, "carbon", "carbonate of the working bath, mol/kg, where the data sheet tells")
	f.Var(quantity{&e.silicon, "0.01"}, "silicon", "silicate of the working bath, mol/kg")
	f.Var(quantity{&e.boron, "0.02"}, "boron", "borate of the working bath, mol/kg")
	f.Var(quantity{&e.first, "10.10"}, "baseline", "the first reading of the fill")
	f.Var(quantity{&e.now.PH, "9.60"}, "ph", "as it reads now")
	f.Var(quantity{&e.now.At, "50C"}, "at", "the sample, both times")
	f.Var(quantity{&e.now.Volume, "227L"}, "volume", "what stands in the tank")
	f.Var(quantity{&e.now.Ratio, "30"}, "ratio", "parts of water to 1 of soap")
	f.Var(quantity{&e.add, "1L"}, "add", "the soap to add, a whole charge at most")
	require(cmd, "baseline", "ph", "at", "volume", "ratio", "add")
	return cmd
}

// soap is the family with its builder, where that was given.
func (e effect) soap() (chem.Family, error) {
	f, err := chem.FindFamily(e.family)
	if err != nil {
		return f, err
	}
	for element, amount := range map[string]float64{"carbon": e.carbon, "silicon": e.silicon, "boron": e.boron} {
		switch {
		case amount == 0:
		case f.Known() && element != f.Builder:
			return f, fmt.Errorf("--%s says nothing of %s: leave it out, or give another --family", element, f.Name)
		default:
			if f, err = f.With(amount); err != nil {
				return f, err
			}
		}
	}
	return f, nil
}

// effectAnswer is calc effect as JSON. Without a family there are ranges in the
// place of ph and full_charge_ph.
type effectAnswer struct {
	PH       *units.PH `json:"ph,omitzero"`
	PHLow    units.PH  `json:"ph_low"`
	PHHigh   units.PH  `json:"ph_high"`
	Reaches  bool      `json:"reaches_baseline"` // with a whole charge at most
	FullPH   *units.PH `json:"full_charge_ph,omitzero"`
	FullLow  units.PH  `json:"full_charge_ph_low"`
	FullHigh units.PH  `json:"full_charge_ph_high"`
	Say      string    `json:"say"`
}

func (a *app) sayEffect(e effect) error {
	soap, err := e.soap()
	if err != nil {
		return refuse("input", "%s", err)
	}
	first := chem.Sample{PH: e.first, At: e.now.At}
	answer, err := e.likely(soap, first, a.system())
	if err == nil && soap.Known() {
		err = answer.exact(soap, first, e)
	}
	if err != nil {
		return refuse("input", "%s", err)
	}
	if a.flags.json {
		return a.printJSON(answer)
	}
	sys := a.system()
	_, err = fmt.Fprintf(a.text(), "with %s more it would likely read %.2f to %.2f; to reach %.2f: %s\n",
		sys.Volume(e.add), float64(answer.PHLow), float64(answer.PHHigh), float64(e.first), answer.Say)
	return err
}

// likely is the answer in ranges.
func (e effect) likely(soap chem.Family, first chem.Sample, sys units.System) (effectAnswer, error) {
	belief, err := chem.NewBelief(soap, first)
	if err != nil {
		return effectAnswer{}, err
	}
	after, err := belief.Effect(e.now, e.add)
	if err != nil {
		return effectAnswer{}, err
	}
	plan, err := belief.Plan(e.now, e.first)
	return effectAnswer{
		PHLow: after.Low, PHHigh: after.High, FullLow: plan.Full.Low, FullHigh: plan.Full.High,
		Reaches: plan.Reaches == chem.Surely, Say: plan.Say(sys),
	}, err
}

// exact puts in the numbers of a plain soap of a known type.
func (r *effectAnswer) exact(soap chem.Family, first chem.Sample, e effect) error {
	after, full, err := soap.Effect(first, e.now, e.add)
	r.PH, r.FullPH, r.Reaches = &after, &full, full >= e.first
	return err
}
