package console

import "charm.land/bubbles/v2/key"

// washKeys are those of the Wash screen alone.
var washKeys = struct {
	more, less, soil, empty, plan, noPlan, take, tick, mend, pause, resume, abort, result, other key.Binding
}{
	more:   bind("right", "more of it", "right", "l", "+", "="),
	less:   bind("left", "less of it", "left", "h", "-"),
	soil:   bind("o", "soil: light, normal, heavy", "o"),
	empty:  bind("backspace", "empty the load", "backspace"),
	plan:   bind("v", "plan: all of it, wash by wash", "v"),
	noPlan: bind("v", "back to the one load", "v"),
	take:   bind("enter", "this wash: the first of the plan; the rest waits", "enter"),
	tick:   bind("space", "tick: it was looked at, and is so", "space"),
	mend:   bind("enter", "do: what the marked line asks for", "enter"),
	pause:  bind("z", "pause: the wash in the bath", "z"),
	resume: bind("z", "go on: with the wash in the bath", "z"),
	abort:  bind("x", "break off: the wash in the bath", "x"),
	result: bind("enter", "gear out: say how it came out", "enter"),
	other:  bind("a", "anything but smoke: asked once an incident", "a"),
}

func (s *washing) bindings() []key.Binding {
	var list []key.Binding
	switch _, over := s.result(); {
	case over:
		list = append(list, washKeys.result)
	case s.run() != nil && s.run().Paused != nil:
		list = append(list, washKeys.resume, washKeys.abort)
	case s.run() != nil:
		list = append(list, washKeys.pause, washKeys.abort)
	default:
		list = append(list, keys.start)
	}
	plan := washKeys.plan
	if s.planned {
		plan = washKeys.noPlan
	}
	list = append(list, plan)
	return append(append(list, s.panels()[s.focus].bindings()...), keys.next, washKeys.other)
}
