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

var colorWords = []string{"auto", "always", "never"}

func (c *colorFlag) String() string { return c.when }
func (c *colorFlag) Type() string   { return strings.Join(colorWords, "|") }

func (c *colorFlag) Set(text string) (err error) {
	if c.when, err = oneOf(text, colorWords); err != nil {
		return err
	}
	set := map[string]string{}
	switch c.when {
	case "always":
		set["CLICOLOR_FORCE"], set["NO_COLOR"] = "1", ""
	case "never":
		set["CLICOLOR_FORCE"], set["NO_COLOR"] = "", "1"
	}
	for name, value := range set {
		if err := os.Setenv(name, value); err != nil {
			return err
		}
	}
	return nil
}
