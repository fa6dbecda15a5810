//go:build unix

package cli

import (
	"errors"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/creack/pty"
)

// The PINs of these tests.
const (
	amariPIN = "580213974602"
	leePIN   = "770264193518"
	oddPIN   = "446192085713"
)

// answer is what is typed when a program asks for it.
type answer struct{ asked, typed string }

// atTerminal runs bathside in a pseudo-terminal of its own, and gives all that
// stood on it, its exit code, and whether it would still show what is typed.
func atTerminal(t testing.TB, data string, answers []answer, args ...string) (screen string, code int, shows bool) {
	t.Helper()
	return atTerminalWith(t, []string{"TERM=xterm-256color", "BATHSIDE_AS=Amari"}, data, answers, args...)
}

// atTerminalWith is atTerminal in an environment of its own.
func atTerminalWith(t testing.TB, env []string, data string, answers []answer, args ...string) (screen string, code int, shows bool) {
	t.Helper()
	cmd := exec.Command("bathside", append([]string{"--data", data}, args...)...)
	cmd.Env = append(append(os.Environ(), "TZ=UTC"), env...)
	master, tty, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer master.Close()
	defer tty.Close()
	cmd.Stdin, cmd.Stdout, cmd.Stderr = tty, tty, tty
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	e := &ear{TB: t, master: master}
	late := time.AfterFunc(90*time.Second, func() { _, _ = tty.WriteString(gaveUp) }) // only a test that has failed anyway waits so long
	defer late.Stop()
	for _, a := range answers {
		screen += e.until(a.asked)
		if _, err := master.WriteString(a.typed); err != nil {
			t.Fatal(err)
		}
	}
	exit := new(exec.ExitError)
	if err := cmd.Wait(); errors.As(err, &exit) {
		code = exit.ExitCode()
	}
	shows = echoes(t, tty.Fd())
	if _, err := tty.WriteString("the end"); err != nil {
		t.Fatal(err)
	}
	return screen + e.until("the end"), code, shows
}

const gaveUp = "\x00gave up"

// ear hears what is written to a terminal, and keeps what was not waited for
// yet.
type ear struct {
	testing.TB
	master *os.File
	rest   string
}

// until is what was written up to and with the words that are waited for.
func (e *ear) until(want string) string {
	e.Helper()
	buf := make([]byte, 4096)
	for !strings.Contains(e.rest, want) {
		n, err := e.master.Read(buf)
		e.rest += string(buf[:n])
		if err != nil || strings.Contains(e.rest, gaveUp) {
			e.Fatalf("waiting for %q: %v after %q", want, err, e.rest)
		}
	}
	i := strings.Index(e.rest, want) + len(want)
	heard := e.rest[:i]
	e.rest = e.rest[i:]
	return heard
}

// A PIN is asked for at the terminal and never shown there, wherever one is
// wanted: setting it, again with the old one, and an act that needs it.
func TestAPINIsAskedForAtTheTerminal(t *testing.T) {
	data := tendedStation(t)
	set := []string{"pin", "set"}
	limit := []string{"log", "setting", "--limit", "0.4"}
	tests := []struct {
		name    string
		args    []string
		answers []answer
		code    int
		says    string
	}{
		{"the first", set, []answer{{"new PIN of Amari Okafor: ", amariPIN + "\r"}, {"the same again: ", amariPIN + "\r"}}, 0, "PIN of Amari Okafor set"},
		{"not the same", set, []answer{{"PIN of Amari Okafor: ", amariPIN + "\r"}, {"new PIN of Amari Okafor: ", leePIN + "\r"}, {"again: ", oddPIN + "\r"}}, 2, "the two are not the same, and nothing was changed"},
		{"another's", append(set, "--member", "Lee"), []answer{{"PIN of Amari Okafor: ", amariPIN + "\r"}, {"new PIN of Lee Tran: ", leePIN + "\r"}, {"again: ", leePIN + "\r"}}, 0, "PIN of Lee Tran set"},
		{"an act", limit, []answer{{"PIN of Amari Okafor: ", amariPIN + "\r"}}, 0, "settings"},
		{"an act, mistyped", limit, []answer{{"PIN of Amari Okafor: ", "99\x7f\b" + amariPIN + "\r"}}, 0, "settings"},
		{"an act, wrong", limit, []answer{{"PIN of Amari Okafor: ", oddPIN + "\r"}}, 2, "that is not the PIN of Amari Okafor"},
		{"an act, nothing typed", limit, []answer{{"PIN of Amari Okafor: ", "\r"}}, 2, "asks for the PIN of Amari Okafor"},
		{"an act with --now", append(limit, "--now", "2026-03-01T07:05:00-07:00"), nil, 2, "--now cannot be given with a PIN"},
		{"an act for a program", append(limit, "--json"), nil, 2, `"id": "pin-missing"`},
		{"left", set, []answer{{"PIN of Amari Okafor: ", "580\x03"}}, 130, "stopped"},
		{"forgotten", []string{"setup", "--reset-pin", "Lee"}, []answer{{"new PIN of Lee Tran: ", oddPIN + "\r"}, {"again: ", oddPIN + "\r"}}, 0, "set anew by set-up, unsigned"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			screen, code, shows := atTerminal(t, data, tt.answers, tt.args...)
			if code != tt.code || !strings.Contains(screen, tt.says) {
				t.Errorf("got code %d, want %d with %q:\n%s", code, tt.code, tt.says, screen)
			}
			if !shows {
				t.Error("the terminal is left without an echo")
			}
			for _, secret := range []string{amariPIN[:3], leePIN[:3], oddPIN[:3]} {
				if strings.Contains(screen, secret) {
					t.Errorf("a PIN was shown:\n%s", screen)
				}
			}
		})
	}
	shell(t, data, "verify")
}

// The same in the console: a sheet over the form asks for it.
func TestConsoleAsksForAPIN(t *testing.T) {
	data := tendedStation(t)
	atTerminal(t, data, []answer{{"new PIN of Amari Okafor: ", amariPIN + "\r"}, {"again: ", amariPIN + "\r"}}, "pin", "set")
	s := sitDown(t, data)
	s.press("2", "\x1b[F", "x")
	s.until("the question why", "Cross out a line", "first reading")
	s.press("r", "i", "n", "s", "e", "\r", "a")
	s.until("the PIN sheet", "PIN of Amari Okafor", "Cross out a line: line")
	s.press(strings.Split(oddPIN, "")...)
	s.until("dots", "••••••••••••")
	s.press("\r")
	s.until("the denial", "4 tries are left")
	s.press(strings.Split(amariPIN, "")...)
	s.press("\r")
	s.until("the line to be crossed out", "READ AGAIN")
	out := shell(t, data, "export")
	if !strings.Contains(out, `"kind":"strike"`) || !strings.Contains(out, `"event":"wrong"`) || strings.Contains(out, amariPIN) || strings.Contains(out, oddPIN) {
		t.Errorf("the export is not as it should be:\n%s", out)
	}
}

func echoes(t testing.TB, fd uintptr) bool {
	t.Helper()
	state, err := term.GetState(fd)
	if err != nil {
		t.Fatal(err)
	}
	return state.Lflag&syscall.ECHO != 0
}
