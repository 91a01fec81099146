package flowsheet_test

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"path"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"flowshelf/ingest/decode"
	"flowshelf/testdata"
)

const demoWant = "testdata/demo.want"

// TestDemo reads every book of the demo folder: flow sheets as listed, nothing
// from price lists, stock books and the rest.
func TestDemo(t *testing.T) {
	folder, err := testdata.Demo()
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	err = fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) != ".xlsx" || strings.HasPrefix(path.Base(name), "~$") {
			return err
		}
		content, err := fs.ReadFile(folder, name)
		if err != nil {
			return err
		}
		book, err := decode.Open(context.Background(), name, content, decode.Defaults())
		if err != nil {
			return err
		}
		got, pages := readBook(name, book, demoShop())
		checkSound(t, got)
		fmt.Fprintf(&out, "%s\n%s", name, describe(got))
		for _, page := range pages {
			if len(got.Tests) == 0 {
				continue
			}
			for _, c := range page.Unclaimed() {
				t.Errorf("%s: nobody accounts for this cell (%q)", page.Ref(c), c.Text)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(demoWant, out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(demoWant)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), out.String()); diff != "" {
		t.Errorf("read differently (-want +got):\n%s", diff)
	}
}
