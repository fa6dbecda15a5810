package advise

import (
	"maps"
	"slices"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// What a face that walks a guide asks about a step. A guide knows no rule of the
// bath, and a face computes none.

// computed are the kinds whose figures advice computes: how much soap, what was
// in the bath, where a liquid must go.
var computed = []bath.Kind{"wash", "dose", "drain"}

// Waits is what waits for an entry of that kind among what came out of a wash,
// a batch at a time; wash 0 is every wash.
func (x *Snapshot) Waits(kind bath.Kind, wash uint64) []Action {
	return slices.DeleteFunc(x.CareWaits(wash), func(a Action) bool { return a.Kind != kind })
}

// Fill is what fills in the form of an entry that a guide asks for: what advice
// knows, then what the guide says.
func (x *Snapshot) Fill(kind bath.Kind, guided map[string]string) map[string]string {
	out := map[string]string{}
	for _, a := range x.Next {
		if a.Kind == kind && slices.Contains(computed, kind) {
			maps.Copy(out, a.Preset)
			break
		}
	}
	if kind == "wash" && x.Bath.Run != nil && len(out) == 0 {
		out = x.resultOf(*x.Bath.Run, bath.ResultClean)
		delete(out, "time") // who goes on before the timer does says how long it was
	}
	if m := x.State.LastMeter(x.Bath.ID); kind == "calibration" && m != "" {
		out["meter"] = m
	}
	maps.Copy(out, guided)
	return out
}

// FillFirst is Fill for what waits first among what came out of a wash.
func (x *Snapshot) FillFirst(kind bath.Kind, wash uint64, guided map[string]string) map[string]string {
	out := map[string]string{}
	if waits := x.Waits(kind, wash); len(waits) > 0 {
		maps.Copy(out, waits[0].Preset)
	}
	maps.Copy(out, x.Fill(kind, guided))
	return out
}

// WashLeft is how long the wash in the bath still runs; 0 where none does.
func (x *Snapshot) WashLeft(now time.Time) time.Duration {
	if x.Bath.Run == nil {
		return 0
	}
	return x.Bath.Run.Left(now)
}

// Logged is the newest of lines, oldest first, that did in this duty day what a
// step of a guide asks for.
func (x *Snapshot) Logged(lines []bath.Entry, kind bath.Kind, guided map[string]string) (bath.Entry, bool) {
	for _, e := range slices.Backward(lines) {
		if e.At.Before(x.Shift.Start) || e.Kind() != kind || e.Bath != "" && e.Bath != x.Bath.ID {
			continue
		}
		if _, struck := x.State.Struck[e.Seq]; !struck && saysSo(e, guided) {
			return e, true
		}
	}
	return bath.Entry{}, false
}

// saysSo reports whether a line says what the guide would fill in.
func saysSo(e bath.Entry, guided map[string]string) bool {
	spec, ok := bath.SpecOf(e.Kind())
	if !ok {
		return false
	}
	for name, text := range guided {
		f, ok := spec.Field(name)
		if ok && text != "" && (f.YesNo || len(f.Words) > 0) && f.Get(e.Body, units.US) != text {
			return false
		}
	}
	return true
}
