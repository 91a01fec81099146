// Package ingest reads a watched folder: it decodes each file, lets the
// recognisers account for every cell of every page, and brings the heads to the
// shop's own names. One file at fault never keeps another from being read.
package ingest

import (
	"runtime"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/shop"
	"flowshelf/ingest/decode"
)

// ReaderVersion changes whenever the same content may read differently, so that
// what was remembered under an earlier one is read again.
const ReaderVersion = 6

// OutputProperty is the document property by which a workbook of ours is known,
// whatever it is called.
const OutputProperty = "Flowshelf output"

// Options say how a folder is read.
type Options struct {
	Reserved string        // the folder that holds what we write ourselves
	Setup    string        // name of the shop's setup workbook
	Limits   decode.Limits // of one file
	Workers  int           // files read at a time
	PerFile  time.Duration // how long one file may take; 0 for no limit
	Memory   Memory        // what was read before, nil for none
	Answers  head.Answers  // what people have said to questions asked earlier

	Only     func(path string) bool // which files are read beside the setup; nil for all
	Progress func(done, total int)  // told after each file, from one goroutine at a time; nil for nobody
}

// Memory keeps what was read from a content. A key covers the content, its
// place, the setup and the reader's version, and the reading itself names the
// answers that it looked for, so what is recalled is what would be read.
type Memory interface {
	Recall(key string) (FileRead, bool)
	Keep(key string, read FileRead)
}

// DefaultOptions are good for a folder of flow sheets and lists.
func DefaultOptions() Options {
	return Options{
		Reserved: "Ranked", Setup: shop.FileName, Limits: decode.Defaults(),
		Workers: max(1, runtime.GOMAXPROCS(0)), PerFile: time.Minute,
	}
}
