// Package ingesttest reads the demo folder for other packages' tests.
package ingesttest

import (
	"testing"

	"flowshelf/analysis/head"
	"flowshelf/ingest"
	"flowshelf/testdata"
)

// Demo reads the demo folder as a pass would.
func Demo(t *testing.T) (head.Records, head.Shop) {
	t.Helper()
	folder, err := testdata.Demo()
	if err != nil {
		t.Fatal(err)
	}
	read, err := ingest.ReadFolder(t.Context(), folder, ingest.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	return read.Records, read.Shop
}
