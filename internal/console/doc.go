// Package console is the station's terminal console: the Bubble Tea program
// that draws a Snapshot and routes keys.
//
// There is one tea.Model, and it only routes. Screens hold panels; panels are
// plain structs that draw what they were given and answer a key with an
// action; sheets (forms, help, the list of kinds) lie over the screen and take
// its keys. No rule of the trade is computed here: see bath and advise.
//
// What the screen keeps to:
//   - The strip of two lines is on every screen and never folded away.
//   - Nothing is told by colour or bold alone: a state is a word and a shape.
//   - Focus shows in a title row only, so that moving it costs few bytes.
//   - esc closes the top sheet and never quits; what was typed stays until then.
//   - A write is queued inside Update and waited for outside; closing drains it.
//   - Text is cut by cells, never by bytes, and every screen fits its window.
package console
