// Command decodeall decodes the files named and prints how many cells hold a
// value or a formula: our side of readers.py.
package main

import (
	"context"
	"fmt"
	"os"

	"flowshelf/ingest/decode"
)

func main() {
	cells, err := count(os.Args[1:])
	if err != nil {
		fmt.Fprintln(os.Stderr, "error:", err)
		os.Exit(1)
	}
	fmt.Fprintln(os.Stdout, cells)
}

func count(paths []string) (int, error) {
	cells := 0
	for _, path := range paths {
		content, err := os.ReadFile(path)
		if err != nil {
			return 0, err
		}
		book, err := decode.Open(context.Background(), path, content, decode.Defaults())
		if err != nil {
			return 0, fmt.Errorf("%s: %w", path, err)
		}
		for _, sheet := range book.Sheets {
			cells += len(sheet.Cells)
		}
	}
	return cells, nil
}
