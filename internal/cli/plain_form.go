package cli

import (
	"errors"
	"io"
	"slices"
	"strings"
	"time"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// plainForm asks for one entry, made from the fields of its kind. What must be
// given is asked one by one; the rest can be filled in before it is saved.
type plainForm struct {
	*talk
	spec  *bath.Spec
	typed map[string][]string // what was typed, by field: it stays
	must  []string            // asked for here, whatever the kind says
	by    string
	at    time.Time // when it happened; zero is now

	only  bool            // save what needs no second thought as soon as it is whole
	asked map[string]bool // what the entry was questioned about already
}

// newForm begins with fields filled in; those filled in with nothing must be
// given.
func (t *talk) newForm(spec *bath.Spec, preset map[string]string) *plainForm {
	f := &plainForm{talk: t, spec: spec, typed: map[string][]string{}, asked: map[string]bool{}}
	for name, text := range preset {
		if text == "" {
			f.must = append(f.must, name)
		} else {
			f.typed[name] = []string{text}
		}
	}
	return f
}

// lasting are the kinds that are hard to undo: liquid that is gone, a
// signature, a red tag that only a gear officer lifts. They are saved by a yes.
var lasting = []bath.Kind{"drain", "decision", "hold", "release", "gear-hold", "gear-release", "strike"}

// run asks until the entry is saved.
func (f *plainForm) run() (bath.Entry, error) {
	f.say("%s A dot alone leaves, and nothing is saved.", stop(f.spec.Title))
	entry, err := f.fill()
	if errors.Is(err, errLeft) || errors.Is(err, io.EOF) {
		f.say("Left, and nothing of it was saved.")
	}
	return entry, err
}

// fill asks for what must be given, then for the last word.
func (f *plainForm) fill() (bath.Entry, error) {
	if f.spec.Kind == "strike" {
		if err := f.lastLines(); err != nil {
			return bath.Entry{}, err
		}
	}
	for _, fd := range f.spec.Fields {
		if len(f.typed[fd.Name]) > 0 || !f.wants(fd) {
			continue
		}
		if err := f.askField(fd, true); err != nil {
			return bath.Entry{}, err
		}
	}
	if err := f.askWho(); err != nil {
		return bath.Entry{}, err
	}
	for {
		entry, saved, err := f.finish()
		if err != nil || saved {
			return entry, err
		}
	}
}

// wants reports whether a field is asked for without being chosen: it must be
// given, or an answer stands there that nobody gave, such as that gear came out
// clean.
func (f *plainForm) wants(fd bath.Field) bool {
	own := !f.only && !fd.YesNo && fd.Get(f.spec.New(), f.x.Sys) != ""
	return !fd.Optional || own || slices.Contains(f.must, fd.Name)
}

// finish is one try to save: the question that the entry raises, what it would
// mean, and whether to keep it.
func (f *plainForm) finish() (entry bath.Entry, saved bool, err error) {
	body, err := f.body()
	if err != nil {
		f.wrong(err)
		return entry, false, f.change()
	}
	if q := f.x.Asks(body); q.Field != "" && !f.asked[q.Field] {
		f.asked[q.Field] = true
		f.say("%s Enter without an answer %s.", q.Say, q.Else)
		fd, _ := f.spec.Field(q.Field)
		return entry, false, f.askField(fd, false)
	}
	if err := f.complete(f.x.State, body); err != nil {
		f.wrong(err)
		return entry, false, f.change()
	}
	f.preview(body)
	if save, err := f.mayWrite(); err != nil || !save {
		return entry, false, err
	}
	if entry, err = f.write(body); err == nil {
		f.say("Saved: line %d.", entry.Seq)
		return entry, true, nil
	}
	return entry, false, f.refused(err)
}

// preview says how the line will read, and what it would mean.
func (f *plainForm) preview(body bath.Body) {
	if b, ok := body.(*bath.Strike); ok {
		if lines, err := f.st.Lines(b.Target, 1); err == nil && len(lines) == 1 && lines[0].Seq == b.Target {
			f.say("Line %d is: %s, by %s.", b.Target, lines[0].Say(f.x.Sys), lines[0].By)
		}
	}
	f.say("It will read: %s, by %s.", bath.Entry{Body: body}.Say(f.x.Sys), f.by)
	if note := f.x.PreviewBody(body); note != "" {
		f.say("%s", note)
	}
}

// mayWrite asks for the last word.
func (f *plainForm) mayWrite() (bool, error) {
	if f.only && !slices.Contains(lasting, f.spec.Kind) {
		f.only = false // a second try is asked about
		return true, nil
	}
	question, otherwise := "Enter saves; m changes or adds something", ""
	if slices.Contains(lasting, f.spec.Kind) {
		question = "Save? y or n; m changes or adds something"
	}
	for {
		typed, err := f.ask(question, otherwise)
		switch sure := strings.HasPrefix(question, "Save?"); {
		case err != nil:
			return false, err
		case strings.EqualFold(typed, "m"):
			return false, f.change()
		case sure && strings.EqualFold(typed, "n"):
			return false, errLeft
		case strings.EqualFold(typed, "y"), typed == "" && !sure:
			return true, nil
		}
		f.say("%s is none of it.", quote(typed))
	}
}

// refused says why an entry was not taken, and lets what is wrong be changed.
// What was done outside the rules wants its reason.
func (f *plainForm) refused(err error) error {
	if errors.Is(err, errInterrupted) {
		return err
	}
	f.wrong(err)
	if refusal := new(bath.Refusal); errors.As(err, &refusal) && refusal.ID == "why" {
		if fd, ok := f.spec.Field("why"); ok {
			return f.askField(fd, true)
		}
	}
	return nil
}

// body is the entry as far as it is typed.
func (f *plainForm) body() (bath.Body, error) {
	b := f.spec.New()
	for _, fd := range f.spec.Fields {
		texts := f.typed[fd.Name]
		if len(texts) == 0 {
			texts = []string{""} // refused where it must be given
		}
		for _, text := range texts {
			if text == "" && fd.Get(b, f.x.Sys) != "" {
				continue // the kind's own default
			}
			if err := fd.Set(b, f.x.Scan, text); err != nil {
				return nil, err
			}
		}
	}
	return b, nil
}

// write records the entry, and keeps a wash session as the console does.
func (f *plainForm) write(body bath.Body) (entry bath.Entry, err error) {
	d := station.Draft{By: f.by, At: f.at, Body: body, Session: f.session}
	if f.spec.Scope != bath.OfStation {
		d.Bath = f.x.Bath.ID
	}
	if err := f.knownGuide(body); err != nil {
		return entry, err
	}
	entries, err := f.recordSigned(f.ctx, f.st, &d)
	if err != nil {
		return entry, err
	}
	f.keep(entries[0], d)
	return entries[0], f.look()
}

// keep remembers who it was, and lets a wash session begin or last.
func (t *talk) keep(e bath.Entry, d station.Draft) {
	t.last, t.until = e.By, t.x.Shift.End
	switch e.Body.(type) {
	case *bath.Start, *bath.Resume:
		if d.PIN != "" {
			t.session = station.BeginSession(e.By, t.now(), t.x.Shift.End)
		}
	case *bath.Wash, *bath.Abort:
	default:
		return
	}
	t.session = t.session.Washed(e.At)
}
