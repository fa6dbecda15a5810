package bath_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// The people and the bath of most tests.
const (
	officer   = "Ana Reyes"
	keyHolder = "Kim Sato"
	crew      = "Lee Holm"
	main      = "main"
)

var denver = mustZone("America/Denver")

// monday is where most tests begin: 7 in the morning, local time.
var monday = time.Date(2026, time.March, 2, 7, 0, 0, 0, denver)

func mustZone(name string) *time.Location {
	loc, err := time.LoadLocation(name)
	if err != nil {
		panic(err)
	}
	return loc
}

// book is a log book in the making, with its own clock.
type book struct {
	t       rapid.TB
	now     time.Time
	entries []bath.Entry
	state   *bath.State
}

// newBook is a station with three members, 24-hour shifts and an empty tank.
func newBook(t testing.TB) *book {
	b := &book{t: t, now: monday, state: bath.NewState()}
	b.log(officer, &bath.Member{Name: officer, Role: bath.Officer, Initials: "AR"})
	b.log(officer, &bath.Member{Name: keyHolder, Role: bath.KeyHolder, Initials: "KS"})
	b.log(officer, &bath.Member{Name: crew, Initials: "LH"})
	b.log(officer, &bath.Setting{Station: "Mill Road", Zone: "America/Denver", Shift: "24/48@07:00", Units: "us"})
	b.log(officer, tank())
	return b
}

// tank holds 60 US gal, at 30 to 1 of the whole.
func tank() *bath.Tank {
	return &bath.Tank{VolumeL: units.Gallons(60), LowL: units.Gallons(48), Product: "soap", Ratio: 30, Strongest: 15, Sewer: "permit 12"}
}

// filled is a station whose bath is in service: filled, dosed, degassed.
func filled(t testing.TB) *book {
	b := newBook(t)
	b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	b.log(crew, &bath.Dose{VolumeL: units.Gallons(2)})
	b.log(keyHolder, &bath.Degas{Time: units.Minutes(15)})
	return b
}

// begun is filled, with its first reading.
func begun(t testing.TB) *book {
	b := filled(t)
	b.log(crew, &bath.Reading{PH: 10.10, SampleC: 50, Meter: "M1", Baseline: true})
	return b
}

// wait moves the clock on.
func (b *book) wait(d time.Duration) *book {
	b.now = b.now.Add(d)
	return b
}

// draft is an entry as a station would write it now.
func (b *book) draft(by string, at time.Time, body bath.Body) bath.Entry {
	e := bath.Entry{Seq: b.state.Seq + 1, ID: "id", At: at, Logged: b.now, By: by, Body: body}
	if spec, ok := bath.SpecOf(e.Kind()); ok && spec.Scope != bath.OfStation || e.Kind() == "tank" {
		e.Bath = main
	}
	return e
}

// try records e if the rules allow it.
func (b *book) try(e bath.Entry) error {
	if o, ok := e.Body.(interface{ SetOutside([]string) }); ok {
		o.SetOutside(bath.Outside(b.state, e))
	}
	if err := bath.Check(b.state, e, e.Logged); err != nil {
		return err
	}
	if k, ok := e.Body.(*bath.Strike); ok {
		if k.Target == 0 || k.Target > uint64(len(b.entries)) {
			return errors.New("no such line")
		}
		if err := bath.CheckStrike(b.state, e, b.entries[k.Target-1], b.entries[k.Target:]); err != nil {
			return err
		}
	}
	b.entries = append(b.entries, e)
	next, err := b.state.Apply(e)
	if errors.Is(err, bath.ErrRefold) {
		next, err = bath.Fold(b.entries)
	}
	if err != nil {
		b.t.Fatalf("line %d was accepted and cannot be folded: %v", e.Seq, err)
	}
	b.state = next
	return nil
}

// log records body, which happens now, a minute after the line before.
func (b *book) log(by string, body bath.Body) bath.Entry {
	b.t.Helper()
	b.wait(time.Minute)
	return b.late(by, b.now, body)
}

// late records body, which happened at another time.
func (b *book) late(by string, at time.Time, body bath.Body) bath.Entry {
	b.t.Helper()
	e := b.draft(by, at, body)
	if err := b.try(e); err != nil {
		b.t.Fatalf("%s by %s: %v", e.Kind(), by, err)
	}
	return e
}

// strike crosses out a line, or puts instead in its place.
func (b *book) strike(by string, target bath.Entry, instead bath.Body) error {
	b.wait(time.Minute)
	return b.try(b.draft(by, b.now, &bath.Strike{Target: target.Seq, Why: "wrong", Instead: raw(b.t, instead)}))
}

func raw(t rapid.TB, body bath.Body) json.RawMessage {
	if body == nil {
		return nil
	}
	data, err := json.Marshal(body)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// bath is the bath as the book has it now.
func (b *book) bath() *bath.Bath {
	b.t.Helper()
	tub, err := b.state.Bath(main)
	if err != nil {
		b.t.Fatal(err)
	}
	return tub
}

// life is the open fill.
func (b *book) life() bath.Life {
	b.t.Helper()
	l, ok := b.bath().Life()
	if !ok {
		b.t.Fatal("no fill is open")
	}
	return l
}

// refusal is a line that is not taken.
type refusal struct {
	name string
	on   func(testing.TB) *book // begun if nil
	by   string                 // crew if empty
	ago  time.Duration
	body bath.Body
	id   string
	say  string // part of the sentence: what was read, what is allowed
}

func checkRefusals(t *testing.T, tests []refusal) {
	t.Helper()
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if tt.on == nil {
				tt.on = begun
			}
			if tt.by == "" {
				tt.by = crew
			}
			b := tt.on(t).wait(time.Minute)
			checkRefusal(t, b.try(b.draft(tt.by, b.now.Add(-tt.ago), tt.body)), tt.id, tt.say)
		})
	}
}

func checkRefusal(t testing.TB, err error, id, say string) {
	t.Helper()
	var r *bath.Refusal
	if !errors.As(err, &r) {
		t.Fatalf("got %v, want a refusal %q", err, id)
	}
	if r.ID != id || !strings.Contains(r.Say, say) {
		t.Errorf("got %s: %s\nwant %s: ... %s ...", r.ID, r.Say, id, say)
	}
	if strings.ContainsAny(r.Say, "\n\t!") || strings.HasSuffix(r.Say, ".") {
		t.Errorf("not one plain sentence: %q", r.Say)
	}
}

// checkOutside compares what is marked on the last line with parts of the
// marks wanted, in order.
func checkOutside(t testing.TB, got []string, want ...string) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("got %q, want %q", got, want)
	}
	for i := range want {
		if !strings.Contains(got[i], want[i]) {
			t.Errorf("got %q, want %q", got[i], want[i])
		}
	}
}

// p points to a value of its own.
func p[T any](x T) *T { return &x }
