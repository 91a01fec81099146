package marked_test

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"flowshelf/analysis/source"
	"flowshelf/export/marked"
	"flowshelf/ingest"
)

const demoFolder = "../../testdata/demo"

// Every book of the demo with something to say about gets a copy, with a note
// on each cell concerned and every cell as it was.
func TestDemo(t *testing.T) {
	read, err := ingest.ReadFolder(context.Background(), os.DirFS(demoFolder), ingest.DefaultOptions())
	must(t, err)
	copies := 0
	must(t, fs.WalkDir(os.DirFS(demoFolder), ".", func(path string, d fs.DirEntry, err error) error {
		found := marked.ByFile(read.Problems)[path]
		if err != nil || d.IsDir() || len(found) == 0 {
			return err
		}
		content, err := os.ReadFile(filepath.Join(demoFolder, path))
		must(t, err)
		if _, err := marked.Extension(content); err != nil {
			if filepath.Ext(path) == ".xlsx" {
				t.Errorf("%s: %v", path, err)
			}
			return nil
		}
		out, err := marked.Make(marked.Original{Path: path, Content: content}, found, limits)
		if err != nil {
			t.Errorf("%s: %v", path, err)
			return nil
		}
		copies++
		want := make(map[string]bool)
		for _, f := range found {
			if f.Cell != "" && f.Severity != source.SetAside {
				want[f.Sheet+"!"+f.Cell] = true
			}
		}
		notes := byPython(t, out).Notes
		for at := range want {
			if notes[at] == "" {
				t.Errorf("%s: no note at %s", path, at)
			}
		}
		keptCells(t, path, content, out)
		return nil
	}))
	const atLeast = 6
	if copies < atLeast {
		t.Errorf("%d copies, want at least %d: the demo has that many books with something in them", copies, atLeast)
	}
}
