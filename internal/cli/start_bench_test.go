//go:build linux

package cli

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"

	"bathside/assets"
	"bathside/internal/catalog"
	"bathside/internal/demo"
)

// BenchmarkFirstFrame measures from the start of the process to the first
// screen on a pseudo-terminal, on the demo station and on 55,000 lines, against
// the smallest Bubble Tea program, started in turn. x-smallest is the ratio of
// the medians, over-ms what the console takes more, rss-MB what it holds then.
func BenchmarkFirstFrame(b *testing.B) {
	dir := b.TempDir()
	smallest, bathside := built(b, dir, "./testdata/smallest"), built(b, dir, "../../cmd/bathside")
	for _, c := range []struct {
		name string
		make func(path string, cat *catalog.Catalog) error
	}{
		{"demo", func(path string, cat *catalog.Catalog) error { return demo.Build(path, time.Now(), cat) }},
		{"55000", func(path string, cat *catalog.Catalog) error { return demo.BuildLarge(path, 55_000, time.Now(), cat) }},
	} {
		b.Run(c.name, func(b *testing.B) {
			cat, err := catalog.Load(assets.FS)
			if err != nil {
				b.Fatal(err)
			}
			path := filepath.Join(dir, c.name+".db")
			if _, err := os.Stat(path); err != nil {
				if err := c.make(path, cat); err != nil {
					b.Fatal(err)
				}
			}
			var small, whole, rss []float64
			for b.Loop() {
				took, _ := firstFrame(b, exec.Command(smallest))
				small = append(small, took)
				took, mb := firstFrame(b, exec.Command(bathside, "--data", path))
				whole, rss = append(whole, took), append(rss, mb)
			}
			b.ReportMetric(0, "ns/op")
			b.ReportMetric(middle(small), "smallest-ms")
			b.ReportMetric(middle(whole), "console-ms")
			b.ReportMetric(middle(whole)/middle(small), "x-smallest")
			b.ReportMetric(middle(whole)-middle(small), "over-ms")
			b.ReportMetric(middle(rss), "rss-MB")
		})
	}
}

func built(b *testing.B, dir, pkg string) string {
	b.Helper()
	out := filepath.Join(dir, filepath.Base(pkg))
	if said, err := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", out, pkg).CombinedOutput(); err != nil {
		b.Fatalf("build %s: %v\n%s", pkg, err, said)
	}
	return out
}

// firstFrame is the milliseconds until the word that both programs show first
// has come, and the megabytes held then.
func firstFrame(b *testing.B, cmd *exec.Cmd) (ms, mb float64) {
	b.Helper()
	cmd.Env = append(os.Environ(), "TERM=xterm-256color", "COLORTERM=truecolor", "LANG=C.UTF-8", "LC_ALL=", "NO_COLOR=", "TMUX=")
	begun := time.Now()
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: 100, Rows: 30})
	if err != nil {
		b.Fatal(err)
	}
	var seen []byte
	buf := make([]byte, 64<<10)
	for !bytes.Contains(seen, []byte("Next")) {
		n, err := tty.Read(buf)
		if err != nil {
			b.Fatalf("it left: %v\n%s", err, seen)
		}
		seen = append(seen, buf[:n]...)
	}
	ms = float64(time.Since(begun).Microseconds()) / 1000
	mb = resident(b, cmd.Process.Pid)
	if err := cmd.Process.Kill(); err != nil {
		b.Fatal(err)
	}
	_ = cmd.Wait() // it was killed
	_ = tty.Close()
	return ms, mb
}

// resident is VmRSS of a process (proc(5)) in megabytes.
func resident(b *testing.B, pid int) float64 {
	b.Helper()
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		b.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(status), "VmRSS:")
	kb, err := strconv.ParseFloat(strings.Fields(rest)[0], 64)
	if err != nil {
		b.Fatal(err)
	}
	return kb / 1024
}

func middle(xs []float64) float64 {
	s := slices.Sorted(slices.Values(xs))
	return s[len(s)/2]
}
