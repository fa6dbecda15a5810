// Command bathside is the chart at the bath's side. Everything is in
// internal/cli; this only hands the process over to it.
package main

import (
	"os"
	"time"

	"github.com/adrg/xdg"

	"bathside/internal/cli"
)

// version is set when a release is built: -ldflags "-X main.version=1.2.0".
var version = "dev"

func main() {
	os.Exit(cli.Main(cli.Process{
		Args: os.Args[1:],
		In:   os.Stdin, Out: os.Stdout, Err: os.Stderr,
		Getenv: os.Getenv, Now: time.Now, Version: version,
		State: xdg.StateHome,
	}))
}
