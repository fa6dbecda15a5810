package report

import (
	"math"

	"bathside/internal/advise"
)

// cautions are what must be known at the bath when no screen says it: common
// practice, no source, but where one is named.
func cautions(x *advise.Snapshot) []string {
	t := text{paper: true}
	t.say("Cautions")
	for _, c := range append(bathCautions(x), allCautions...) {
		t.hang(" -", 3, c)
	}
	return t.lines()
}

// bathCautions carry the figures of this bath.
func bathCautions(x *advise.Snapshot) []string {
	tank := x.Bath.Tank
	out := []string{"Above " + whole(x.Sys, tank.Max(), math.Floor) + ": heater off, gear out, let it cool; wake the gear officer."}
	if tank.LowL > 0 {
		out = append(out, "Level near "+x.Sys.Volume(tank.LowL)+": heater off until it is filled up to the mark.")
	}
	say, ok := x.SewerSay()
	if ok {
		return append(out, "Sewer: only by "+say+", of a cooled cup. In doubt keep the liquid; never dilute to pass.")
	}
	return append(out, "Draining: "+say+". Keep the liquid; never dilute to pass.")
}

var allCautions = []string{
	"Ultrasound: key holders only; see the timer stop it. Off before a probe, a hand or a basket goes in. Lid shut, and pump off, while it runs.",
	"Hot alkaline liquid: cover eyes, face and hands. Eyewash at ______________",
	"Asbestos, opioids, chemicals, unknown: red tag, stays out. Wake ___________",
	"Blood: cool rinse, disinfect, then the bath.",
	"Never in: electronics, batteries, lights not marked immersion-proof, leather, anything wet with fuel, hose, soft goods.",
	// Repair of breathing gear is for those its maker trained: 29 CFR 1910.134(h)(4).
	"Cylinder heated, dropped or scraped: red tag, for the technician.",
	"After the third wash of an item in one visit: stop, ask the gear officer.",
	"Heater and ultrasound locked out before a hand goes into an empty tank.",
	"Washed is not proved clean: look before it goes back.",
	"Black water alone is no reason to drain.",
}
