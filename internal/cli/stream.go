package cli

import (
	"bufio"
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"bathside/internal/bath"
	"bathside/internal/jsonline"
	"bathside/internal/station"
)

// addStream gives log its --stream.
func (a *app) addStream(log *cobra.Command) {
	stream := log.Flags().Bool("stream", false, "read lines from standard input, each like {\"kind\": \"temp\", \"body\": {\"bath_c\": 48}, \"at\": \"07:05\", \"by\": \"AR\", \"bath\": \"main\"}")
	list := log.RunE
	log.RunE = func(cmd *cobra.Command, args []string) error {
		if !*stream {
			return list(cmd, args)
		}
		a.streams = true
		return a.withStation(func(st *station.Station) error { return a.logStream(cmd.Context(), st) })
	}
}

// draftLine is one line of the stream: an entry as --json prints it, less what
// only the log book can know.
type draftLine struct {
	ID   string          `json:"id"` // makes sending it twice harmless
	Kind bath.Kind       `json:"kind"`
	At   string          `json:"at"`
	By   string          `json:"by"`
	Bath string          `json:"bath"`
	Body json.RawMessage `json:"body"`
}

// logStream records each line before it reads the next. It stops at the first
// that is refused, and says what stands.
func (a *app) logStream(ctx context.Context, st *station.Station) error {
	lines := bufio.NewScanner(a.In)
	lines.Buffer(nil, longestLine)
	n, recorded := 0, 0
	for lines.Scan() {
		n++
		if err := ctx.Err(); err != nil {
			return err
		}
		text := bytes.TrimSpace(lines.Bytes())
		if len(text) == 0 {
			continue
		}
		if err := a.logLine(st, text); err != nil {
			return a.stoppedAt(n, recorded, err)
		}
		recorded++
	}
	switch err := lines.Err(); {
	case errors.Is(err, bufio.ErrTooLong):
		return a.stoppedAt(n+1, recorded, refuse("input", "it is longer than %d KiB, which no entry is: write one entry to a line", longestLine>>10))
	case err != nil:
		return fmt.Errorf("read standard input: %w", err)
	}
	return nil
}

// longestLine is a hundred times what an entry takes.
const longestLine = 64 << 10

func (a *app) stoppedAt(n, recorded int, err error) error {
	f := *a.faultOf(err)
	f.Say = fmt.Sprintf("line %d of the input: %s; of what came before it %d are recorded and stay", n, f.Say, recorded)
	return &f
}

func (a *app) logLine(st *station.Station, text []byte) error {
	s, err := a.state(st)
	if err != nil {
		return err
	}
	d, err := a.readDraft(s, text)
	if err != nil {
		return err
	}
	if err := a.knownGuide(d.Body); err != nil {
		return err
	}
	entries, err := a.record(st, d)
	if err != nil {
		return err
	}
	return a.printLine(entries[0], s.System())
}

// idForm is what the log book takes for an id.
var idForm = regexp.MustCompile(`^[A-Za-z0-9_-]{0,64}$`)

func (a *app) readDraft(s *bath.State, text []byte) (station.Draft, error) {
	var l draftLine
	if err := jsonline.Check(text); err != nil {
		return station.Draft{}, notAnEntry(err)
	}
	if err := readStrictly(text, &l); err != nil {
		return station.Draft{}, err
	}
	if !idForm.MatchString(l.ID) {
		return station.Draft{}, refuse("input", "%s is not an id: letters, digits, - and _ are allowed, at most 64", quote(l.ID))
	}
	d := station.Draft{ID: l.ID, By: l.By, Bath: l.Bath}
	var err error
	if d.Bath == "" {
		d.Bath = a.flags.bath
	}
	if d.By == "" {
		if d.By, err = a.who(s); err != nil {
			return d, err
		}
	}
	if l.At != "" {
		if d.At, err = bath.ParseWhen(l.At, a.now().In(s.Zone()), s.Times()); err != nil {
			return d, err
		}
	}
	d.Body, err = readBody(s, l)
	return d, err
}

// readBody is stricter than the log book's own reader, which must also take
// what older and newer versions wrote: a misspelt name would lose a value.
func readBody(s *bath.State, l draftLine) (bath.Body, error) {
	spec, ok := bath.SpecOf(l.Kind)
	if !ok {
		return nil, refuse("unknown-kind", "%s is not a kind of entry: use one of %s", quote(string(l.Kind)), kindNames())
	}
	body := spec.New()
	if len(l.Body) > 0 {
		if err := readStrictly(l.Body, body); err != nil {
			return nil, err
		}
	}
	for _, f := range spec.Fields {
		is := f.Get(body, s.System())
		if len(f.Words) == 0 || is == "" && f.Optional {
			continue
		}
		if !slices.Contains(f.Words, is) {
			return nil, refuse("input", "%s: %s is not one of %s", f.Label, quote(is), strings.Join(f.Words, ", "))
		}
	}
	return body, nil
}

func readStrictly(text []byte, dst any) error {
	if err := decodeStrictly(text, dst); err != nil {
		return notAnEntry(err)
	}
	return nil
}

func notAnEntry(err error) error {
	return refuse("input", "not an entry (%s): write it like {\"kind\": \"temp\", \"body\": {\"bath_c\": 48}}", err)
}

// decodeStrictly reads one JSON value without a name that dst does not have.
func decodeStrictly(text []byte, dst any) error {
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.DisallowUnknownFields()
	wrong := new(json.UnmarshalTypeError)
	switch err := dec.Decode(dst); {
	case errors.As(err, &wrong):
		return fmt.Errorf("%s cannot be %s", cmp.Or(wrong.Field, "it"), quote(wrong.Value))
	case err != nil:
		return errors.New(strings.TrimPrefix(err.Error(), "json: "))
	}
	if _, more := dec.Token(); !errors.Is(more, io.EOF) {
		return errors.New("there is more than one value")
	}
	return nil
}

func kindNames() string {
	var names []string
	for _, s := range bath.Specs() {
		names = append(names, string(s.Kind))
	}
	return strings.Join(names, ", ")
}
