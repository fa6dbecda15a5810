package console

import (
	"errors"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/station"
	"bathside/internal/units"
)

type draft = station.Draft

// form asks for one entry. It is made from the kind's Spec: what must be
// given first, then who, then what may be left out. Enter on what must be
// given goes on; on who and below it saves.
type form struct {
	t       *theme
	x       *advise.Snapshot
	spec    *bath.Spec
	fields  fields
	collect bool   // hand the entry to the sheet below
	begun   string // the field that it was opened for; enter there asks who it is first

	practice bool // on a copy of the log book

	err    string
	note   string
	asked  bool // what the entry is questioned about was asked once
	probe  probe
	saving bool
}

const (
	rowWho  = "who"
	rowWhen = "when"
	rowTank = "tank" // the id of its bath, which may be a new one
	rowWhy  = "why"  // also the refusal of what was done without a reason
)

// newForm opens the form of a kind. who is the member remembered this shift.
func newForm(t *theme, x *advise.Snapshot, spec *bath.Spec, preset map[string]string, who string) *form {
	f := &form{t: t, x: x, spec: spec, fields: fields{t: t}}
	body := spec.New()
	var later []*row
	for _, fd := range spec.Fields {
		r := fieldRow(fd, body, x.Sys)
		r.echo = f.echo(fd)
		if v, ok := preset[fd.Name]; ok {
			r.set(v)
		}
		if v, asked := preset[fd.Name]; asked && v == "" {
			r.optional = false // it is asked for here, whatever the kind says
			f.fields.rows = append(f.fields.rows, r)
		} else if fd.Optional && v == "" {
			later = append(later, r)
		} else {
			f.fields.rows = append(f.fields.rows, r)
		}
	}
	when := newRow(rowWhen, "when", "now, 07:05, yesterday 07:05, tue 07:05").set("now")
	when.optional = true
	f.fields.rows = append(f.fields.rows, whoRow(x, who), when)
	if spec.Kind == "tank" {
		f.fields.rows = append(f.fields.rows, tankRow(x, preset))
	}
	f.fields.rows = append(f.fields.rows, later...)
	if r := f.fields.row("meter"); r != nil && spec.Kind == "reading" && x.MeterSay() != "" {
		r.help = x.MeterSay() + "; another, or strips"
	}
	f.fields.focus(0)
	f.fields.focus(f.firstEmpty())
	f.preview()
	return f
}

// tankRow asks which tank it is: the one that is looked at, or a new one.
func tankRow(x *advise.Snapshot, preset map[string]string) *row {
	r := newRow(rowTank, "of bath", "its short name, like main; a new one sets up another tank").set(x.Bath.ID)
	if id, asked := preset[rowTank]; asked {
		r.set(id)
	}
	r.optional = r.value() != ""
	return r
}

// beginAt puts the keys on the field that the form is opened for; "" leaves
// them where they are.
func (f *form) beginAt(name string) {
	if f.fields.row(name) != nil {
		f.fields.focusOn(name)
		f.begun = name
	}
}

// firstEmpty is the first row that still wants an answer.
func (f *form) firstEmpty() int {
	for i, r := range f.fields.rows {
		if r.value() == "" || r.name == rowWho {
			return i
		}
	}
	return 0
}

func fieldRow(fd bath.Field, body bath.Body, sys units.System) *row {
	words := fd.Words
	if fd.YesNo {
		words = []string{"no", "yes"}
	} else if fd.Optional && len(words) > 0 && fd.Get(body, sys) == "" {
		words = append([]string{""}, words...)
	}
	help := fd.Help
	if help == "" {
		help = "like " + fd.Example
	}
	r := newRow(fd.Name, fd.Label, help, words...)
	r.optional = fd.Optional
	switch v := fd.Get(body, sys); {
	case v != "":
		r.set(v)
	case len(words) > 0 && (fd.YesNo || fd.Optional):
		r.set(words[0])
	}
	return r
}

func (f *form) title() string {
	if f.practice {
		return "Practice: " + f.spec.Title
	}
	return f.spec.Title
}

func (f *form) update(msg tea.Msg) action {
	if f.saving {
		return nil
	}
	if k, ok := msg.(tea.KeyPressMsg); ok {
		switch {
		case key.Matches(k, keys.esc):
			return closeSheet{}
		case key.Matches(k, keys.enter):
			return f.enter()
		case f.times() && key.Matches(k, probeKey):
			f.probe.start(f.stands())
			return nil
		}
	}
	f.err = ""
	chose := f.fields.update(msg)
	f.preview()
	if chose && f.complete() {
		return f.save()
	}
	return nil
}

func (f *form) enter() action {
	r := f.fields.rows[f.fields.at]
	if r.scans() {
		f.note = "Scan the next one; enter again goes on."
		return nil
	}
	if r.name == rowWho && r.value() == "" {
		f.err = "Who is it? Press the key beside a name."
		return nil
	}
	if r.name == f.begun && r.optional && f.fields.row(rowWho).value() == "" {
		f.fields.focusOn(rowWho)
		return nil
	}
	if !r.optional && r.name != rowWho {
		if err := f.try(r); err != nil {
			f.err = sentence(err)
			return nil
		}
		if i := f.nextWanted(); i < len(f.fields.rows) {
			f.fields.focus(i)
			return nil
		}
		if !f.complete() { // it began below: in a catch-up the time is asked for first
			f.fields.focus(f.firstEmpty())
			return nil
		}
	}
	return f.save()
}

// nextWanted is the row after this one, past what is filled in already and may
// be left out; one past the last where nothing more is wanted.
func (f *form) nextWanted() int {
	i := f.fields.at + 1
	for i < len(f.fields.rows) {
		if r := f.fields.rows[i]; !r.optional || r.value() == "" || r.name == rowWhen {
			break
		}
		i++
	}
	return i
}

// try reads one row, to say at once what is wrong with it.
func (f *form) try(r *row) error {
	fd, ok := f.spec.Field(r.name)
	if !ok {
		return nil
	}
	return fd.Set(f.spec.New(), f.x.Scan, r.value())
}

// complete reports whether everything that must be given is there.
func (f *form) complete() bool {
	for _, r := range f.fields.rows {
		if !r.optional && r.value() == "" {
			return false
		}
	}
	return true
}

func (f *form) save() action {
	d, err := f.draft()
	if err != nil {
		f.err = sentence(err)
		return nil
	}
	if field, question := f.asks(d.Body); field != "" {
		f.asked = true
		f.fields.focusOn(field)
		f.err = question
		return nil
	}
	if err := f.x.Complete(d.Body); err != nil {
		f.err = sentence(err)
		return nil
	}
	if f.collect {
		return collected{d}
	}
	f.saving = true
	return submit{[]draft{d}}
}

// draft is the entry that the rows make.
func (f *form) draft() (draft, error) {
	body := f.spec.New()
	for _, r := range f.fields.rows {
		fd, ok := f.spec.Field(r.name)
		if !ok {
			continue
		}
		if err := fd.Set(body, f.x.Scan, r.value()); err != nil {
			f.fields.focusOn(r.name)
			return draft{}, err
		}
	}
	who := f.fields.row(rowWho).value()
	if who == "" {
		f.fields.focusOn(rowWho)
		return draft{}, errors.New("who is it? Press the key beside a name")
	}
	d := draft{By: who, Body: body}
	if f.spec.Scope != bath.OfStation {
		d.Bath = f.x.Bath.ID
	}
	if r := f.fields.row(rowTank); r != nil && f.spec.Kind == "tank" {
		d.Bath = r.value()
	}
	if when := f.fields.row(rowWhen).value(); when != "" && when != "now" {
		at, err := bath.ParseWhen(when, f.x.Now, f.x.Times)
		if err != nil {
			f.fields.focusOn(rowWhen)
			return draft{}, err
		}
		d.At = at
	}
	return d, nil
}

// echo prints what was typed as it is read, or nothing where it cannot be.
func (f *form) echo(fd bath.Field) func(string) string {
	return func(text string) string {
		b := f.spec.New()
		if fd.Set(b, f.x.Scan, text) != nil {
			return ""
		}
		return fd.Get(b, f.x.Sys)
	}
}

// preview says under the rows what the entry would mean, as far as it is
// typed.
func (f *form) preview() {
	f.note = ""
	body := f.spec.New()
	for _, r := range f.fields.rows {
		if fd, ok := f.spec.Field(r.name); ok && r.value() != "" {
			if fd.Set(body, f.x.Scan, r.value()) != nil {
				return
			}
		} else if ok && !r.optional {
			return
		}
	}
	f.note = f.x.PreviewBody(body)
}

// refused gives the form back with what went wrong; nothing typed is lost.
func (f *form) refused(err error) {
	f.saving, f.err = false, sentence(err)
	if refusal := new(bath.Refusal); errors.As(err, &refusal) && refusal.ID == rowWhy {
		f.fields.focusOn(rowWhy)
	}
}

func (f *form) view(w, h int) ([]string, *tea.Cursor) {
	said := f.said(w)
	free := h - 1 - len(f.fields.rows) - len(said)
	if len(said) == 0 || free > 0 && f.err == "" && !f.saving { // what is wrong stands alone
		said = append(said, f.hint(w, max(1, free))...)
	}
	lines, cursor := f.fields.view(w, min(h-1-len(said), len(f.fields.rows)))
	lines = append(append(lines, ""), said...)
	return lines[:min(len(lines), h)], cursor
}

// said is what stands under the rows: what is wrong, else what the entry would
// mean, and how long the probe has stood.
func (f *form) said(w int) []string {
	text, style := f.note, f.t.text
	switch {
	case f.saving:
		text = "Saving…"
	case f.err != "":
		text, style = f.t.mark("✗ ", "X ")+f.err, f.t.bad
	}
	var out []string
	if text != "" {
		out = wrap(text, w-3)
		out = out[:min(len(out), 3)]
	}
	if say := f.probe.say(); say != "" {
		out = append(out, say)
	}
	for i := range out {
		out[i] = " " + style.Render(out[i])
	}
	return out
}

// hint is the help that the row with the keys has no room for, in at most most
// lines. It takes as many for each row, so that the form does not jump.
func (f *form) hint(w, most int) []string {
	longest := 1
	for _, r := range f.fields.rows {
		longest = max(longest, len(wrap(r.help, w-3)))
	}
	help := wrap(f.fields.unsaid(w), w-3)
	if len(help) > most {
		help = append(help[:most-1], ansi.Truncate(help[most-1]+" …", w-3, "…"))
	}
	for i := range help {
		help[i] = " " + f.t.muted.Render(help[i])
	}
	return append(help, make([]string, max(0, min(longest, most)-len(help)))...)
}

// remembered is who saved, until the shift ends.
type remembered struct {
	who   string
	until time.Time
}
