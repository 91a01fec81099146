// Package testdata carries the demo folder of an invented shop, so that
// `flowshelf init --demo` can lay it out anywhere.
package testdata

import (
	"embed"
	"io/fs"
)

//go:embed all:demo
var files embed.FS

// Demo returns the demo folder.
func Demo() (fs.FS, error) { return fs.Sub(files, "demo") }
