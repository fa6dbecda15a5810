package cli

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/console"
	"bathside/internal/station"
	"bathside/internal/units"
)

// plainSetup is the first start in plain talk. Nothing is made before all of it
// is known.
type plainSetup struct {
	*talk
	is            *newStation
	setting, tank *plainForm
	soaps         []option
}

// setUpByTalk asks for a station, beginning with what is known of it, until it
// is made or left.
func (a *app) setUpByTalk(ctx context.Context, n *newStation) (made bool, err error) {
	if _, err := os.Lstat(a.dataPath()); err == nil {
		return false, fmt.Errorf("%s: %w", a.dataPath(), station.ErrExists)
	}
	s := &plainSetup{talk: &talk{app: a, ctx: ctx, x: &advise.Snapshot{Sys: a.system()}}, is: n}
	if err := s.begin(); err != nil {
		return false, err
	}
	s.say("Set up this station. A dot alone leaves, and nothing is saved. Everything can be changed later.")
	for {
		err := s.fill()
		if err == nil {
			err = a.makeStation(n, s.askPIN)
		}
		switch {
		case errors.As(err, new(*bath.Refusal)):
			s.wrong(err) // and it is asked again, with what was typed
		case errors.Is(err, errLeft), errors.Is(err, io.EOF):
			s.say("Left, and nothing was set up.")
			return false, nil
		default:
			return err == nil, err
		}
	}
}

// begin fills in what flags have said, and what holds for most.
func (s *plainSetup) begin() error {
	cat, err := s.catalog()
	if err != nil {
		return err
	}
	for _, d := range cat.Detergents {
		s.soaps = append(s.soaps, option{say: fmt.Sprintf("%s: %s, %g to 1", d.ID, d.Name, d.Ratio), keys: []string{d.ID}})
	}
	if s.is.soap == "" && len(s.soaps) > 0 {
		s.is.soap = s.soaps[0].keys[0]
	}
	s.is.officer = cmp.Or(s.is.officer, personName())
	s.is.settle(s.app)
	s.setting, s.tank = s.formOf("setting", &s.is.setting), s.formOf("tank", &s.is.tank)
	return nil
}

// formOf is a form that begins with a body.
func (s *plainSetup) formOf(kind bath.Kind, b bath.Body) *plainForm {
	spec, _ := bath.SpecOf(kind)
	preset := map[string]string{}
	for _, fd := range spec.Fields {
		if text := fd.Get(b, s.x.Sys); text != "" {
			preset[fd.Name] = text
		}
	}
	return s.newForm(spec, preset)
}

// fill asks for everything, in the order in which somebody looks around.
func (s *plainSetup) fill() error {
	for _, ask := range []func() error{
		s.asks(s.setting, "station"), s.askOfficer, s.asks(s.setting, "units"), s.readUnits,
		s.asks(s.tank, "volume"), s.asks(s.tank, "mark"), s.asks(s.tank, "heater"),
		s.askSoap, s.asks(s.tank, "ratio"), s.asks(s.setting, "parts"), s.asks(s.tank, "set"), s.asks(s.setting, "kept-hot"),
		s.asks(s.setting, "shift"), s.asks(s.setting, "zone"),
	} {
		if err := ask(); err != nil {
			return err
		}
	}
	return s.take()
}

// asks asks for a field of a form until it makes sense. Those without which
// there is no station must be given.
func (s *plainSetup) asks(f *plainForm, name string) func() error {
	fd, _ := f.spec.Field(name)
	must := name == "station" || name == "volume"
	return func() error {
		if empty := console.IfEmpty[name]; empty != "" && len(f.typed[name]) == 0 {
			s.say("If left empty, %s.", empty)
		}
		for {
			if err := f.askField(fd, must); err != nil {
				return err
			}
			body, err := f.body()
			if err == nil {
				err = s.sound(body)
			}
			if err == nil {
				return nil
			}
			s.wrong(err)
		}
	}
}

// sound checks an entry as far as it is known, by what a station would say.
func (s *plainSetup) sound(body bath.Body) error {
	const who = "the gear officer"
	now := s.now()
	alone, err := bath.NewState().Apply(bath.Entry{Seq: 1, At: now, Logged: now, By: who, Body: &bath.Member{Name: who, Role: bath.Officer}})
	if err != nil {
		return err
	}
	return bath.Check(alone, bath.Entry{At: now, By: who, Bath: firstBath, Body: body}, now)
}

func (s *plainSetup) askOfficer() error {
	s.say("gear officer: who decides, drains and sets up. You are the first member; others are added later.")
	for {
		typed, err := s.ask("your own name, like Ana Reyes", s.is.officer)
		if err != nil {
			return err
		}
		if s.is.officer = strings.TrimSpace(typed); s.is.officer != "" {
			return nil
		}
		s.say("It stands in every line that you write: give a name.")
	}
}

// readUnits takes in the units that were chosen: what is asked for next is read
// in them.
func (s *plainSetup) readUnits() error {
	body, err := s.setting.body()
	if err != nil {
		return err
	}
	sys, err := units.ParseSystem(body.(*bath.Setting).Units)
	s.x.Sys, s.flags.units = sys, &sys
	return err
}

func (s *plainSetup) askSoap() error {
	if len(s.soaps) == 0 {
		return nil
	}
	s.say("soap: what goes in. The ratio of its label and the size of its container come with it.")
	i, err := s.choose("soap, number or word", s.is.soap, s.soaps)
	if err == nil {
		s.is.soap = s.soaps[i].keys[0]
	}
	return err
}

// take keeps what the forms hold, with the soap.
func (s *plainSetup) take() error {
	setting, err := s.setting.body()
	if err != nil {
		return err
	}
	tank, err := s.tank.body()
	if err != nil {
		return err
	}
	s.is.setting, s.is.tank = *setting.(*bath.Setting), *tank.(*bath.Tank)
	s.is.inWater, s.is.keptHot = s.is.setting.InWater(), s.is.setting.KeptHot != nil && *s.is.setting.KeptHot
	if err := s.chooseSoap(s.is); err != nil {
		return err
	}
	return s.sound(&s.is.tank) // with what the soap's label allows
}

// askPIN asks whether the gear officer wants a PIN, and for one that is good;
// "" for none.
func (s *plainSetup) askPIN(by string) (station.PIN, error) {
	if s.secrets.New != "" {
		return s.newPIN(s.ctx, by)
	}
	s.say("PIN: 4 to 12 digits, asked for when only you may act. Without one anyone can act in your name. bathside pin set gives one later.")
	for wanted := s.is.pin; ; wanted = false {
		if !wanted {
			if i, err := s.pickOne("a PIN now, yes or no", "no", options([]string{"yes", "no"})); err != nil || i == 1 {
				return "", err
			}
		}
		fresh, err := s.newPIN(s.ctx, by)
		if err == nil || errors.Is(err, errInterrupted) {
			return fresh, err
		}
		s.wrong(err)
	}
}
