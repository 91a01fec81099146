package main

import (
	"bytes"
	"path/filepath"
	"testing"

	"flowshelf/analysis/shop"
)

// TestInitIsDated holds that a setup carries the day that it was asked for.
func TestInitIsDated(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "shop")
	var stdout, stderr bytes.Buffer
	if code := execute([]string{"init", folder, "--date", "2026-03-16"}, &stdout, &stderr); code != 0 {
		t.Fatalf("init ended with %d\n%s%s", code, stdout.String(), stderr.String())
	}
	about, err := openBook(t, filepath.Join(folder, shop.FileName)).GetDocProps()
	if err != nil || about.Created != "2026-03-16T00:00:00Z" {
		t.Errorf("the setup was made on %q, %v", about.Created, err)
	}
}
