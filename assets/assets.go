// Package assets holds the data that ships inside the program. It is data
// only: package catalog reads and checks the catalogs, package demo the demo.
package assets

import "embed"

// FS holds items.toml and detergents.toml at its root, the guides under guides/,
// and the demo's station under demo/.
//
//go:embed items.toml detergents.toml guides/*.toml demo/station.toml
var FS embed.FS
