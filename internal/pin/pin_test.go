package pin_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"golang.org/x/crypto/argon2"
	"pgregory.net/rapid"

	"bathside/internal/pin"
)

// cheap is for tests that are not about the cost.
var cheap = pin.Cost{MemoryKiB: 8, Passes: 1, Lanes: 1}

// The first three are known answers of the reference implementation of argon2
// (src/test.c, version 0x13, argon2id, "password", "somesalt"). The last is
// published in the documentation of a binding of that implementation, at the
// very cost of Standard.
func TestCheckAgreesWithTheReference(t *testing.T) {
	for _, encoded := range []string{
		"$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
		"$argon2id$v=19$m=19456,t=2,p=1$+Lrjry9Ifq0poLr15OGU1Q$utkDvejJB0ugwm4s9+a+vF6+1a/W+Y3CYa5Wte/85ig",
	} {
		if ok, err := pin.Check(encoded, "password"); !ok || err != nil {
			t.Errorf("%s: got %v, %v", encoded, ok, err)
		}
		if ok, err := pin.Check(encoded, "Password"); ok || err != nil {
			t.Errorf("%s, another password: got %v, %v", encoded, ok, err)
		}
	}
}

// OWASP Password Storage Cheat Sheet: "m=19456 (19 MiB), t=2, p=1".
func TestTheStandardCost(t *testing.T) {
	encoded := pin.Standard.Hash("580213")
	if !strings.HasPrefix(encoded, "$argon2id$v=19$m=19456,t=2,p=1$") {
		t.Errorf("got %s", encoded)
	}
	if ok, err := pin.Check(encoded, "580213"); !ok || err != nil {
		t.Errorf("got %v, %v", ok, err)
	}
}

func TestOnlyThePINItselfFits(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		digits := rapid.StringMatching(`[0-9]{4,12}`)
		chosen, given := digits.Draw(rt, "chosen"), digits.Draw(rt, "given")
		encoded := cheap.Hash(chosen)
		if ok, err := pin.Check(encoded, chosen); !ok || err != nil {
			rt.Errorf("the PIN itself: got %v, %v", ok, err)
		}
		if ok, err := pin.Check(encoded, given); ok != (given == chosen) || err != nil {
			rt.Errorf("%s for %s: got %v, %v", given, chosen, ok, err)
		}
		if again := cheap.Hash(chosen); again == encoded {
			rt.Errorf("the same PIN twice gives the same text %s", again)
		}
	})
}

func TestTextThatIsNoHash(t *testing.T) {
	const whole = "$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4"
	tests := map[string]string{
		"empty":            "",
		"the PIN":          "580213",
		"another kind":     strings.Replace(whole, "argon2id", "argon2i", 1),
		"another version":  strings.Replace(whole, "v=19", "v=16", 1),
		"no version":       strings.Replace(whole, "$v=19", "", 1),
		"no passes":        strings.Replace(whole, "t=2", "t=0", 1),
		"no lanes":         strings.Replace(whole, "p=1", "p=0", 1),
		"4 GiB":            strings.Replace(whole, "m=256", "m=4194304", 1),
		"beyond 32 bits":   strings.Replace(whole, "m=256", "m=4294967552", 1),
		"a thousand times": strings.Replace(whole, "t=2", "t=1000", 1),
		"300 lanes":        strings.Replace(whole, "p=1", "p=300", 1),
		"sign":             strings.Replace(whole, "m=256", "m=+256", 1),
		"short salt":       strings.Replace(whole, "c29tZXNhbHQ", "c29t", 1),
		"no salt":          strings.Replace(whole, "c29tZXNhbHQ", "", 1),
		"no hash":          whole[:strings.LastIndex(whole, "$")+1],
		"short hash":       whole[:strings.LastIndex(whole, "$")+5],
		"padded":           whole + "=",
		"more behind":      whole + "$",
		"new line":         whole + "\n",
		"last bits set":    strings.TrimSuffix(whole, "4") + "5", // they carry nothing
	}
	for name, encoded := range tests {
		t.Run(name, func(t *testing.T) {
			if ok, err := pin.Check(encoded, "password"); ok || !errors.Is(err, pin.ErrUnreadable) {
				t.Errorf("%q: got %v, %v", encoded, ok, err)
			}
		})
	}
}

func TestGood(t *testing.T) {
	tests := []struct{ pin, want string }{
		{"5802", ""}, {"580213580213", ""}, {"1235", ""}, {"0001", ""}, {"2468", ""}, {"1212", ""},
		{"", "no PIN"}, {"58 02", "other than digits"}, {"58a2", "other than digits"}, {"-5802", "other than digits"},
		{"٥٨٠٢", "other than digits"}, // digits of another script
		{"580", "has 3"}, {"5802135802135", "has 13"}, {"7", "has 1"},
		{"0000", "over and over"}, {"999999", "over and over"},
		{"1234", "in a row"}, {"0123456789", "in a row"}, {"4321", "in a row"}, {"8901", "in a row"}, {"2109", "in a row"},
	}
	for _, tt := range tests {
		t.Run(fmt.Sprintf("%q", tt.pin), func(t *testing.T) {
			err := pin.Good(tt.pin)
			switch {
			case (err == nil) != (tt.want == ""):
				t.Errorf("got %v, want %q", err, tt.want)
			case err == nil:
			case !strings.Contains(err.Error(), tt.want):
				t.Errorf("got %v, want %q", err, tt.want)
			case len(tt.pin) > 3 && strings.Contains(err.Error(), tt.pin):
				t.Errorf("it gives the PIN away: %v", err)
			}
		})
	}
}

// Of the 10,000 PINs of four digits, 10 are one digit and 20 are digits in a
// row that begin anywhere.
func TestThirtyOfTheShortestAreTooEasy(t *testing.T) {
	bad := 0
	for n := range 10_000 {
		if pin.Good(fmt.Sprintf("%04d", n)) != nil {
			bad++
		}
	}
	if bad != 30 {
		t.Errorf("got %d, want 30", bad)
	}
}

// BenchmarkCheck prints how much longer a check takes than the bare argon2id.
func BenchmarkCheck(b *testing.B) {
	encoded := pin.Standard.Hash("580213")
	salt := []byte("sixteen is plain")
	var ours, bare time.Duration
	for b.Loop() {
		begun := time.Now()
		if ok, err := pin.Check(encoded, "580213"); !ok || err != nil {
			b.Fatal(ok, err)
		}
		between := time.Now()
		argon2.IDKey([]byte("580213"), salt, 2, 19*1024, 1, 32)
		ours += between.Sub(begun)
		bare += time.Since(between)
	}
	b.ReportMetric(float64(ours)/float64(bare), "x-bare")
	b.ReportMetric(float64(ours.Microseconds())/1000/float64(b.N), "ms/check")
}
