package catalog

import "bathside/internal/units"

// Detergent is one soap type: a product as its label describes it.
type Detergent struct {
	ID   string
	Name string

	Ratio     float64 // parts of water to one part of product: 40 for 40:1
	Strongest float64 // the least water that the label allows to one part

	// Family is the builder that carries the pH, a word of [Families].
	Family    string
	Builder   float64 // of it by weight in the product, in %, from the data sheet; 0 unknown
	Inhibited bool    // spares aluminium

	PHLow, PHHigh units.PH // the working bath's range

	Container string       // "jug"
	Size      units.Volume // of one container
}

// Families are the builders that a detergent may name. Under "unknown" every
// figure that rests on the builder is a range.
var Families = []string{
	"unknown", "hydroxide", "metasilicate", "soda-ash", "buffered-carbonate", "silicate", "borate", "phosphate", "mixed",
}

// readDetergent reads one [[detergent]] and checks what its fields say together.
func readDetergent(t *table) Detergent {
	low, high := t.span("ph")
	soap := Detergent{
		ID:        t.id(),
		Name:      t.text("name"),
		Ratio:     t.number("ratio"),
		Strongest: t.number("strongest"),
		Family:    t.word("family", Families...),
		Inhibited: t.flag("inhibited"),
		PHLow:     units.PH(low),
		PHHigh:    units.PH(high),
		Container: t.text("container"),
		Size:      quantity[units.Volume](t, "size", "1 gal"),
	}
	if t.has("builder") {
		soap.Builder = t.number("builder")
	}
	if soap.Builder > 100 {
		t.wrong("builder", `"builder" is %v %%; no more than 100 can be in it`, soap.Builder)
	}
	if soap.Strongest > soap.Ratio && soap.Ratio > 0 {
		t.wrong("strongest", `"strongest" is %v:1, weaker than the ratio, %v:1; write no more water than that`,
			soap.Strongest, soap.Ratio)
	}
	if low < 0 || high > 14 {
		t.wrong("ph", `"ph" is [%v, %v]; pH runs from 0 to 14`, low, high)
	}
	return soap
}
