package cli

import (
	"errors"
	"fmt"
	"os"

	"bathside/internal/station"
)

// wholeAnswer is what verify --json prints where all is well.
type wholeAnswer struct {
	Entries uint64         `json:"entries"`
	Seal    string         `json:"seal"`
	Against *againstAnswer `json:"against,omitzero"`
}

// againstAnswer is what another record of the log book proves of it.
type againstAnswer struct {
	What  string `json:"what"` // file or seal
	Name  string `json:"name"`
	Lines uint64 `json:"lines"` // that it proves unchanged
	After uint64 `json:"after"` // lines that came after
}

func (g *againstAnswer) say() string {
	if g.What == "file" {
		return fmt.Sprintf("%s is %s: none of them was changed, %s came after", g.Name, firstLines(g.Lines), countLines(g.After))
	}
	s := fmt.Sprintf("seal number %s is that of %s: none of them was changed, %s came after", g.Name, firstLines(g.Lines), countLines(g.After))
	if len(g.Name) < surestSeal {
		s += fmt.Sprintf("; %d digits prove that against a slip, %d or more against a forger", len(g.Name), surestSeal)
	}
	return s
}

// surestSeal is how many digits no forger can bring about: another text for 64
// given bits of a good hash takes about 2^64 trials (from memory: NIST SP
// 800-107, on digests that are cut short).
const surestSeal = 16

func firstLines(n uint64) string {
	if n == 1 {
		return "the first line here"
	}
	return fmt.Sprintf("the first %d lines here", n)
}

func countLines(n uint64) string {
	if n == 1 {
		return "1 line"
	}
	return fmt.Sprintf("%d lines", n)
}

// against holds the log book, which is whole in itself, against another record
// of it: a file, or a seal number where there is no file of that name.
func (a *app) against(other string) (*againstAnswer, error) {
	if _, err := os.Stat(other); err == nil {
		return a.againstFile(other)
	}
	digits, ok := station.SealDigits(other)
	if !ok {
		return nil, refuse("no-file", "%s is no file, and no seal number either: name a backup or an export, or give 8 to 64 digits of a seal number", quote(other))
	}
	return a.againstSeal(digits)
}

func (a *app) againstFile(other string) (*againstAnswer, error) {
	m, err := station.MatchFile(a.dataPath(), other)
	switch {
	case errors.Is(err, station.ErrNotOurs), err == nil && m.There == 0:
		return nil, refuse("not-ours", "%s has no lines of a log book: name a backup or a file that bathside export wrote", other)
	case errors.Is(err, station.ErrDamaged):
		return nil, parted(0, "%s is damaged and proves nothing: run bathside verify --data %s to see where, and hold against another backup", other, other)
	case errors.Is(err, station.ErrInUse):
		return nil, &fault{Kind: kindInUse, ID: "in-use", Say: other + " is in use by another program: wait for it or close it, then try again"}
	case err != nil:
		return nil, &fault{Kind: kindFailed, ID: "failed", Say: oneLine(err)}
	case m.Whole():
		return &againstAnswer{What: "file", Name: other, Lines: m.There, After: m.Here - m.There}, nil
	}
	return nil, a.partedFrom(other, m)
}

// partedFrom says at which line two records part, and which one it speaks
// against where that can be told.
func (a *app) partedFrom(other string, m station.Match) error {
	line := m.Same + 1
	switch {
	case m.Same == m.Here:
		return parted(line, "%s goes on where %s ends, at line %d: it has %s more; an older copy was put in the place of the log book, or lines were cut off: keep both files, and go on with the longer one",
			other, a.dataPath(), m.Here, countLines(m.There-m.Here))
	case m.Broken != 0:
		return parted(line, "%s and %s part at line %d, and %s does not hold together at line %d: %s was changed after it was made; hold against another record",
			a.dataPath(), other, line, other, m.Broken, other)
	}
	return parted(line, "%s and %s part at line %d, and each holds together: one of them was made anew, or is another station's; keep both, and hold them against a seal number on paper",
		a.dataPath(), other, line)
}

func (a *app) againstSeal(digits string) (*againstAnswer, error) {
	found, here, err := station.MatchSeal(a.dataPath(), digits)
	switch {
	case err != nil:
		return nil, err
	case len(found) > 1:
		return nil, refuse("input", "%d lines have a seal number that begins with %s: give more digits", len(found), digits)
	case len(found) == 0:
		return nil, parted(0, "none of the %d lines has a seal number that begins with %s: read the number again; if it is right, lines up to it were changed or cut off since, or this is another log book",
			here, digits)
	}
	return &againstAnswer{What: "seal", Name: digits, Lines: found[0], After: here - found[0]}, nil
}

// parted is told like damage: something that was recorded is not there as it
// was. line is where, 0 where that cannot be told.
func parted(line uint64, format string, args ...any) error {
	return &fault{Kind: kindDamaged, ID: "parted", Line: line, Say: fmt.Sprintf(format, args...)}
}
