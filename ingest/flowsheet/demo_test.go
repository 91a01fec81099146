package flowsheet_test

import (
	"context"
	"io/fs"
	"path"
	"testing"

	"flowshelf/ingest/decode"
	"flowshelf/testdata"
)

func TestDemoDump(t *testing.T) {
	folder, err := testdata.Demo()
	if err != nil {
		t.Fatal(err)
	}
	err = fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) != ".xlsx" {
			return err
		}
		content, err := fs.ReadFile(folder, name)
		if err != nil {
			return err
		}
		book, err := decode.Open(context.Background(), name, content, decode.Defaults())
		if err != nil {
			t.Logf("%s: %v", name, err)
			return nil
		}
		got, pages := readBook(name, book, demoShop())
		t.Logf("=== %s: %d tests", name, len(got.Tests))
		for _, test := range got.Tests {
			t.Log(show(test))
		}
		for _, p := range got.Problems.Sorted() {
			t.Logf("  %s %s: %s", p.Severity, p.Kind, p)
		}
		for _, p := range pages {
			if len(got.Tests) > 0 {
				for _, c := range p.Unclaimed() {
					t.Logf("  unclaimed %s %q", p.Ref(c), c.Text)
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
