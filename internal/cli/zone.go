package cli

import (
	"os"
	"strings"
	"time"
)

// localZone is the name of the zone this machine is in, UTC where it cannot be
// told.
func localZone(getenv func(string) string) string {
	link, _ := os.Readlink("/etc/localtime") // no such link on Windows
	_, linked, _ := strings.Cut(link, "zoneinfo/")
	for _, name := range []string{strings.TrimPrefix(getenv("TZ"), ":"), time.Local.String(), linked} {
		if name == "" || name == "Local" {
			continue
		}
		if _, err := time.LoadLocation(name); err == nil {
			return name
		}
	}
	return "UTC"
}
