package cli

import (
	"os"
	"strings"
)

// The libraries that draw ask the environment about colour, so that is where
// the flag and the convention (no-color.org) are put into force.

// tameColor makes any value of NO_COLOR count: the libraries want a true one.
func (a *app) tameColor() {
	if a.Getenv("NO_COLOR") != "" {
		_ = os.Setenv("NO_COLOR", "1")
	}
}

// colorFlag is --color.
type colorFlag struct{ when string }

func (c *colorFlag) String() string { return c.when }
func (c *colorFlag) Type() string   { return "auto|always|never" }

func (c *colorFlag) Set(text string) error {
	set := map[string]string{}
	switch when := strings.ToLower(text); when {
	case "auto":
	case "always":
		set["CLICOLOR_FORCE"], set["NO_COLOR"] = "1", ""
	case "never":
		set["CLICOLOR_FORCE"], set["NO_COLOR"] = "", "1"
	default:
		return refuse("input", "%q is not one of auto, always, never", text)
	}
	c.when = strings.ToLower(text)
	for name, value := range set {
		if err := os.Setenv(name, value); err != nil {
			return err
		}
	}
	return nil
}
