// Command decodeall decodes the files named, as many at a time as there are
// cores, and prints how many cells hold a value or a formula: our side of
// readers.py. With -unzip first it only unpacks their parts and prints how many
// bytes there are: what any reader must at least do.
package main

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"sync"

	"flowshelf/ingest/decode"
)

func main() {
	// The heap of this little program is so small that the collector would run
	// all the time, which it does not do in the service.
	const percent = 400
	debug.SetGCPercent(percent)
	count, paths := cells, os.Args[1:]
	if len(paths) > 0 && paths[0] == "-unzip" {
		count, paths = unzipped, paths[1:]
	}
	sum, err := total(paths, count)
	if err != nil {
		fmt.Fprintln(os.Stderr, "error:", err)
		os.Exit(1)
	}
	fmt.Fprintln(os.Stdout, sum)
}

// total adds up what is counted in the files; the error is one of the faults.
func total(paths []string, count func(path string) (int, error)) (sum int, err error) {
	work := make(chan string)
	var together sync.WaitGroup
	var lock sync.Mutex
	for range runtime.GOMAXPROCS(0) {
		together.Go(func() {
			for path := range work {
				n, fault := count(path)
				lock.Lock()
				sum += n
				if fault != nil {
					err = fmt.Errorf("%s: %w", path, fault)
				}
				lock.Unlock()
			}
		})
	}
	for _, path := range paths {
		work <- path
	}
	close(work)
	together.Wait()
	return sum, err
}

func cells(path string) (int, error) {
	content, err := os.ReadFile(path)
	if err != nil {
		return 0, err
	}
	book, err := decode.Open(context.Background(), path, content, decode.Defaults())
	if err != nil {
		return 0, err
	}
	n := 0
	for _, sheet := range book.Sheets {
		n += len(sheet.Cells)
	}
	return n, nil
}

func unzipped(path string) (int, error) {
	content, err := os.ReadFile(path)
	if err != nil {
		return 0, err
	}
	container, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return 0, err
	}
	n := 0
	for _, part := range container.File {
		r, err := part.Open()
		if err != nil {
			return 0, err
		}
		size, err := io.Copy(io.Discard, r)
		if err != nil {
			return 0, err
		}
		n += int(size)
		if err := r.Close(); err != nil {
			return 0, err
		}
	}
	return n, nil
}
