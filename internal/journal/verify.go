package journal

import (
	"errors"
	"fmt"
	"hash/maphash"
	"io"
	"os"
	"strings"
	"time"
)

// Report is what Verify found.
type Report struct {
	Entries  int      // entries that could be read
	Head     Head     // as stored
	Findings []string // what is wrong, a sentence each; none if all is well
}

// maxFindings keeps a wholly scrambled file from filling the screen.
const maxFindings = 100

// Verify checks everything that the file says of itself: both header pages,
// its length, each page of the trees, each entry against the hash in the next,
// the newest against the head, the index of IDs both ways, the checkpoint and
// the records of side tables. It reads with bounds of its own and comes back
// from any damage. With findings it returns ErrDamaged; it returns ErrNotExist,
// ErrNotOurs, ErrNewer or ErrInUse for a file that it cannot judge.
//
// JSON is parsed only where a seal is broken, and for the newest entry: bytes
// under a seal that holds are those that Append wrote.
//
// Verify cannot see that the whole file was replaced by an older copy, or
// written anew by somebody who knows how. Compare the head with one noted
// elsewhere.
func Verify(path string) (Report, error) {
	report, err := verify(path)
	if err == nil && len(report.Findings) > 0 {
		err = fmt.Errorf("%w: %s", ErrDamaged, report.Findings[0])
	}
	if err != nil {
		return report, fmt.Errorf("verify journal %s: %w", path, classify(err, forReading))
	}
	return report, nil
}

func verify(path string) (Report, error) {
	j, err := locate(path)
	if err != nil {
		return Report{}, err
	}
	deadline := time.Now().Add(j.lockWait())
	unlock, err := j.lock(forReading, deadline)
	if err != nil {
		return Report{}, err
	}
	defer unlock()
	// Opening it by bbolt keeps writers out where there is no lock file. Where
	// it fails because of damage nobody writes either.
	if h, err := openWithin(path, forReading, deadline); err == nil {
		defer func() { _ = h.close() }() // it was only read
	} else if !errors.Is(err, ErrDamaged) {
		return Report{}, err
	}
	f, err := os.Open(path)
	if err != nil {
		return Report{}, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return Report{}, err
	}
	return inspect(f, info.Size())
}

// inspect is Verify for a file that nobody writes.
func inspect(f io.ReaderAt, size int64) (Report, error) {
	v := &verifier{seed: maphash.MakeSeed()}
	headers, err := readHeaders(f, size)
	for _, finding := range headers.findings {
		v.find("%s", finding)
	}
	if err != nil {
		v.find("%s", strings.TrimPrefix(err.Error(), ErrDamaged.Error()+": "))
		return v.Report, nil
	}
	err = v.file(newTree(f, headers.newest, v.find), headers.newest)
	if v.more > 0 {
		v.Findings = append(v.Findings, fmt.Sprintf("and %d findings more", v.more))
	}
	return v.Report, err
}
