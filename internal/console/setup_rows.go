package console

import "bathside/internal/bath"

func newSetup(t *theme, o Options) *setup {
	s := &setup{t: t, cat: o.Catalog, fields: fields{t: t}}
	var products []string
	if o.Catalog != nil {
		for _, d := range o.Catalog.Detergents {
			products = append(products, d.ID)
		}
	}
	first := ""
	if len(products) > 0 {
		first = products[0]
	}
	s.fields.rows = []*row{
		newRow("station", "station", "like Mill Road, station 5"),
		newRow("officer", "gear officer", "your own name, like Ana Reyes").set(o.User),
		newRow("units", "units", "gallons and °F, or litres and °C", "us", "si").set("us"),
		newRow("tank", "tank holds", "to the mark, like 70gal or 265L"),
		newRow("mark", "the mark", "like the lower rim of the overflow"),
		newRow("heater", "heater", "from its plate, like 6kW"),
		newRow("product", "soap", "what goes in", products...).set(first),
		newRow("ratio", "ratio", "parts to 1, like 40"),
		newRow("parts", "parts are", "R to 1: of the whole bath, or of its water", bath.PartsOfTotal, bath.PartsInWater).set(bath.PartsOfTotal),
		newRow("set", "set point", "like 122F or 50C"),
		newRow("hot", "bath is", "kept hot day and night, or heated for washing", "heated", "kept-hot").set("heated"),
		newRow("shift", "shifts", "like 24/48@07:00"),
		newRow("zone", "time zone", "like America/Denver").set(o.Zone),
		secretRow(t, "pin", "first PIN", "4 to 12 digits, your own"),
		secretRow(t, rowAgain, "PIN again", "the same digits"),
	}
	for _, r := range s.fields.rows {
		r.optional = r.name != "station" && r.name != "officer" && r.name != "tank"
	}
	s.fields.focus(0)
	return s
}

// IfEmpty is what holds where set-up is told nothing, by what is asked.
var IfEmpty = map[string]string{
	"mark":   "they are told to fill to the mark",
	"heater": "6 kW is taken until measuring shows better",
	"ratio":  "what the label says",
	"set":    "122 °F (50 °C): it cleans well, and cylinders stand it",
	"shift":  "one crew",
	"zone":   "this machine's",
}

// setupWhy is why each thing is asked; [IfEmpty] goes on from there.
var setupWhy = map[string]string{
	"station": "The top line of every screen shows it, and every sheet. It must be given.",
	"officer": "You are the first member and the gear officer: who decides, drains and sets up. Others are added later under 8. It must be given.",
	"units":   "A number without a unit is read in these. Left and right choose.",
	"tank":    "Soap, level and warming are figured from it; the tank's own paper says it. It must be given.",
	"mark":    "Said to whoever fills it.",
	"heater":  "It tells when the bath will be warm.",
	"product": "Its label's ratio and the size of its container come with it. Left and right choose; change it later under 8, Soap.",
	"parts":   "The label, or its maker, says which. Left and right choose.",
	"set":     "What the heater is set to.",
	"hot":     "Heated for washing: Next says when to switch on. Left and right choose.",
	"shift":   "It tells who is on and when to hand over: 24/48@07:00, 48/96@08:00, kelly@07:00, or drill:tue@19:00.",
	"zone":    "Every line of the log book is dated in it.",
	"pin":     "Asked for when only you may act. If left empty, nobody is asked: anyone can act in your name. Later under 8, PINs. Enter saves.",
	rowAgain:  "So that a slip does not lock you out. Enter saves.",
}
