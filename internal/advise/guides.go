package advise

// guideOf names the guide that leads through an action, by its id.
var guideOf = map[string]string{
	"fill": "set-up", "dose": "set-up", "heat": "set-up", "degas": "set-up", "baseline": "set-up", "baseline-cooled": "set-up",
	"reading": "weekly-reading", "read-again": "weekly-reading", "doubt": "weekly-reading", "mark": "weekly-reading", "duty-eyewash": "weekly-reading",
	"filter": "filter", "drain": "drain-and-refill", "clean": "drain-and-refill", "cool": "drain-and-refill", "drain-limits": "drain-and-refill",
	"calibrate": "calibrate-meter", "dip": "calibrate-meter", "buffers": "calibrate-meter", "electrode": "calibrate-meter", "changed": "calibrate-meter",
	"wash-result": WashGuide,
}

// Guide is the id of the guide that leads through the action; "" where none
// does.
func (a Action) Guide() string { return guideOf[a.ID] }
