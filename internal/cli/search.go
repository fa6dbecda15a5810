package cli

import "time"

// searchTime is how long a search for a better plan may take: longer, and
// whoever asked thinks that it hangs.
const searchTime = 2 * time.Second

// within says true once so much time has passed since it was made.
func within(budget time.Duration) func() bool {
	end := time.Now().Add(budget)
	return func() bool { return time.Now().After(end) }
}
