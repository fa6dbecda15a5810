package cli

import (
	"cmp"
	"strings"
	"time"

	"bathside/internal/bath"
)

// change asks for any one field again, or for one that may be left out.
func (f *plainForm) change() error {
	var options []option
	for _, fd := range f.spec.Fields {
		options = append(options, option{fd.Label + ": " + cmp.Or(f.shown(fd), "not given"), []string{fd.Name, fd.Label}, ""})
	}
	options = append(options, option{"who: " + f.by, []string{"who"}, ""}, option{"when: " + f.whenSay(), []string{"when"}, ""})
	i, err := f.choose("Which? Its number; enter goes back", "", options)
	switch n := len(f.spec.Fields); {
	case err != nil || i < 0:
		return err
	case i == n:
		return f.chooseWho()
	case i > n:
		return f.askWhen()
	}
	return f.askField(f.spec.Fields[i], false)
}

// askField asks for one field until it is right. Enter keeps what stands there;
// a dash takes out what may be left out.
func (f *plainForm) askField(fd bath.Field, must bool) error {
	f.explain(fd)
	now := f.shown(fd)
	for {
		typed, err := f.ask(f.question(fd), now)
		switch {
		case err != nil:
			return err
		case typed == now && (typed != "" || !must):
			return nil
		case typed == "-" && fd.Optional:
			delete(f.typed, fd.Name)
			return nil
		}
		if i := pick(typed, options(fd.Words)); i >= 0 {
			typed = fd.Words[i]
		}
		read, err := f.read(fd, typed, must)
		if err != nil {
			f.wrong(err)
			continue
		}
		if f.typed[fd.Name] = []string{typed}; read != typed {
			f.say("Read as %s.", read)
		}
		return nil
	}
}

// explain says what is wanted: the help of the field, and the words there are.
func (f *plainForm) explain(fd bath.Field) {
	if fd.Help != "" {
		f.say("%s", stop(fd.Label+": "+fd.Help))
	}
	for i, w := range fd.Words {
		f.say("%2d %s", i+1, w)
	}
}

func (f *plainForm) question(fd bath.Field) string {
	switch {
	case fd.YesNo:
		return fd.Label + ", yes or no"
	case len(fd.Words) > 0:
		return fd.Label + ", number or word"
	}
	return fd.Label + ", like " + fd.Example
}

// read is what was typed as it is read back.
func (f *plainForm) read(fd bath.Field, typed string, must bool) (string, error) {
	b := f.spec.New()
	if typed == "" && must {
		fd.Optional = false
	}
	if err := fd.Set(b, f.x.Scan, typed); err != nil {
		return "", err
	}
	return fd.Get(b, f.x.Sys), nil
}

// shown is what stands in a field, as it is read; "" where nothing does.
func (f *plainForm) shown(fd bath.Field) string {
	if fd.YesNo && len(f.typed[fd.Name]) == 0 {
		return "no"
	}
	b := f.spec.New()
	for _, text := range f.typed[fd.Name] {
		_ = fd.Set(b, f.x.Scan, text) // it was read when it was typed
	}
	return fd.Get(b, f.x.Sys)
}

func options(words []string) []option {
	var all []option
	for _, w := range words {
		all = append(all, option{say: w, keys: []string{w}})
	}
	return all
}

// askWho asks who it is, unless that was said on the command line or there is
// only one.
func (f *plainForm) askWho() error {
	named := cmp.Or(f.flags.as, f.Getenv("BATHSIDE_AS"))
	roll := f.x.Roll()
	if f.only {
		named, _ = f.app.who(f.x.State) // as the command would without asking
	}
	if named == "" && len(roll) != 1 {
		return f.chooseWho()
	}
	if named == "" {
		named = roll[0].Name
	}
	m, err := f.x.State.Member(named)
	f.by = m.Name
	return err
}

// chooseWho asks for one of the roster, those on duty first. Who saved last
// stands in brackets until the shift ends.
func (f *plainForm) chooseWho() error {
	var all []option
	for _, m := range f.x.Roll() {
		all = append(all, option{m.Name, []string{m.Name, m.Initials, strings.Fields(m.Name + " ?")[0]}, ""})
	}
	last := f.by
	if last == "" && f.now().Before(f.until) {
		last = f.last
	}
	i, err := f.choose("who, number or name", last, all)
	for i < 0 && err == nil {
		f.say("Who it was stands in every line: type a number.")
		i, err = f.pickOne("who, number or name", last, all)
	}
	if err == nil {
		f.by = f.x.Roll()[i].Name
	}
	return err
}

// askWhen asks when it happened. What is typed counts from the moment it is
// typed: "20min ago" must not move while the rest is asked.
func (f *plainForm) askWhen() error {
	f.say("when: %s.", atHelp)
	for {
		typed, err := f.ask("when", f.whenSay())
		if err != nil || typed == f.whenSay() {
			return err
		}
		if err := f.setWhen(typed); err != nil {
			f.wrong(err)
			continue
		}
		f.say("Read as %s.", f.whenSay())
		return nil
	}
}

func (f *plainForm) setWhen(typed string) (err error) {
	f.at = time.Time{}
	if typed != "" && typed != "now" {
		f.at, err = bath.ParseWhen(typed, f.x.Local(f.now()), f.x.Times)
	}
	return err
}

func (f *plainForm) whenSay() string {
	if f.at.IsZero() {
		return "now"
	}
	return f.x.Times.DayClock(f.at)
}
