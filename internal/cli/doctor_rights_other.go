//go:build !unix

package cli

import "os"

// hasModes says whether files here have permission bits.
const hasModes = false

// rights says nothing where there are no permission bits.
func (x *checkup) rights() {}

func modeSay(os.FileInfo) string { return "" }

func sameDisk(a, b string) (same, known bool) { return false, false }
