package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"bathside/internal/chem"
	"bathside/internal/units"
)

func (a *app) calcPH() *cobra.Command {
	var (
		m   chem.Mix
		t   units.Temperature
		air partsPerMillion
	)
	cmd := &cobra.Command{
		Use: "ph", Short: "pH of a mix in water", Args: noWords,
		Long:    "The pH of carbonate, silicate, borate and phosphate in water, by balance of charge. Amounts are in moles to the kilogram of water; what is left out is none.",
		Example: "bathside calc ph --na 0.06 --carbon 0.02 --silicon 0.01 --acid 0.02 --temp 50C",
		RunE:    func(*cobra.Command, []string) error { return a.sayPH(m, t, float64(air)*1e-6) },
	}
	f := cmd.Flags()
	f.Var(quantity{&m.Sodium, "0.06"}, "na", "all alkali, sodium or potassium, mol/kg")
	f.Var(quantity{&m.Carbon, "0.02"}, "carbon", "carbonate in all its forms, mol/kg")
	f.Var(quantity{&m.Silicon, "0.01"}, "silicon", "silicate in all its forms, mol/kg")
	f.Var(quantity{&m.Boron, "0.02"}, "boron", "borate in all its forms, mol/kg")
	f.Var(quantity{&m.Phosphorus, "0.01"}, "phosphorus", "phosphate in all its forms, mol/kg")
	f.Var(quantity{&m.Acid, "0.02"}, "acid", "strong acid, as soil mostly is, mol/kg")
	f.Var(quantity{&t, "50C"}, "temp", "of the mix")
	f.Var(&air, "air-co2", "open to air with so much carbon dioxide: 420ppm outdoors; closed, if left out")
	require(cmd, "temp")
	return cmd
}

func (a *app) sayPH(m chem.Mix, t units.Temperature, air float64) error {
	solve := chem.Solve
	if air > 0 {
		solve = func(m chem.Mix, t units.Temperature) (chem.Solution, error) { return chem.SolveOpen(m, t, air) }
	}
	s, err := solve(m, t)
	if err != nil {
		return refuse("input", "%s", err)
	}
	if a.flags.json {
		return a.printJSON(map[string]float64{"ph": float64(s.PH), "ionic_strength": s.Ionic})
	}
	say := fmt.Sprintf("pH %.2f at %s, ionic strength %.3f mol/kg", float64(s.PH), a.system().Temp(t), s.Ionic)
	if s.Doubtful() {
		say += fmt.Sprintf("; above %.1f the model has been held against little: take it as about", chem.WarnIonic)
	}
	_, err = fmt.Fprintln(a.text(), say)
	return err
}

// partsPerMillion is a share of the air: 420ppm.
type partsPerMillion float64

func (p *partsPerMillion) String() string { return "" }
func (p *partsPerMillion) Type() string   { return "420ppm" }

func (p *partsPerMillion) Set(text string) error {
	number, ok := strings.CutSuffix(strings.ToLower(strings.TrimSpace(text)), "ppm")
	var x float64
	if err := units.Scan(&x, strings.TrimSpace(number)); err != nil || !ok || !(x > 0 && x <= 1e5) {
		return refuse("input", "%s is no share of the air: write it like 420ppm, up to 100000ppm", quote(text))
	}
	*p = partsPerMillion(x)
	return nil
}
