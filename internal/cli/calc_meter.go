package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"bathside/internal/chem"
)

func (a *app) calcMeter() *cobra.Command {
	var points pointsFlag
	cmd := &cobra.Command{
		Use: "meter", Short: "What a calibration says of a meter", Args: noWords,
		Long:    "Slope and offset of an electrode from two or three buffers: phthalate, phosphate, 7.00, borax or carbonate, each with its temperature and the millivolts it gave.",
		Example: "bathside calc meter --point phosphate@25C=8.0mV --point carbonate@25C=-175.0mV",
		RunE:    func(*cobra.Command, []string) error { return a.sayMeter(points) },
	}
	cmd.Flags().Var(&points, "point", "buffer, temperature and millivolts; two or three, with commas between or each by its own")
	require(cmd, "point")
	return cmd
}

func (a *app) sayMeter(points []chem.Point) error {
	c, err := chem.Calibrate(points)
	if err != nil {
		return refuse("input", "%s", err)
	}
	v := c.Judge(0)
	if a.flags.json {
		return a.printJSON(struct {
			SlopeMV  float64 `json:"slope_mv"`
			SlopePct float64 `json:"slope_pct"`
			OffsetMV float64 `json:"offset_mv"`
			OK       bool    `json:"ok"`
			Say      string  `json:"say"`
		}{c.SlopeMV, c.SlopePct, c.OffsetMV, v.OK, v.Say})
	}
	_, err = fmt.Fprintln(a.text(), v.Say)
	for _, note := range v.Notes {
		_, err = fmt.Fprintln(a.text(), "note: "+note)
	}
	return err
}

// pointsFlag is --point.
type pointsFlag []chem.Point

func (p *pointsFlag) String() string { return "" }
func (p *pointsFlag) Type() string   { return "carbonate@25C=-175mV" }

func (p *pointsFlag) Set(text string) error {
	for part := range strings.SplitSeq(text, ",") { // as log calibration takes them
		point, err := chem.ParsePoint(part)
		if err != nil {
			return refuse("input", "%s", err)
		}
		*p = append(*p, point)
	}
	return nil
}
