package main

import (
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/source"
	"flowshelf/config"
	"flowshelf/export/book"
	"flowshelf/ingest"
	"flowshelf/ingest/cache"
)

func smallBook(t *testing.T) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	if err := f.SetCellValue("Sheet1", "A1", "x"); err != nil {
		t.Fatal(err)
	}
	b, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func testApp(t *testing.T) *app {
	t.Helper()
	c, err := config.Load(config.Sources{})
	if err != nil {
		t.Fatal(err)
	}
	a := &app{config: c}
	t.Cleanup(a.marker.rest)
	return a
}

// A pass makes copies of what something is to be said about, says why others
// have none, and does not make one twice.
func TestMarking(t *testing.T) {
	files := fstest.MapFS{}
	var seen []file
	var problems source.Problems
	add := func(name string, content []byte, says string) {
		files[name] = &fstest.MapFile{Data: content}
		seen = append(seen, file{path: name, read: ingest.FileRead{Path: name, Hash: name}})
		if says != "" {
			problems.Add(source.Problem{At: source.Ref{File: name, Sheet: "Sheet1", Cell: "A1"}, Severity: source.Asked, Message: says})
		}
	}
	good := smallBook(t)
	add("bench/PW-46.xlsx", good, "is this a lift")
	add("fine.xlsx", good, "")
	add("mended.xlsx", good, "")
	add("prices.csv", []byte("head,price"), "each or a pair?")
	add("half.xlsx", good[:len(good)/2], "its end is missing")
	files["Ranked/Marked copies/mended.xlsx"] = &fstest.MapFile{Data: good}

	a := testApp(t)
	m := marking{a, files, make(unmarkable), func() { t.Error("a few small copies are held") }}
	before := remembered{}
	pass := func() (names []string, remarks map[string]string) {
		docs := documents{made: before}
		remarks = m.add(t.Context(), &docs, seen, problems)
		for _, d := range docs.ready {
			names = append(names, d.Name)
			if d.stamp == (book.Stamp{}) { // not made before
				if err := d.lay(before); err != nil {
					t.Error(err)
				}
			}
		}
		return names, remarks
	}
	want := []string{"Marked copies/bench - PW-46.xlsx"} // that of a mended one is withdrawn
	names, remarks := pass()
	if diff := cmp.Diff(want, names); diff != "" {
		t.Errorf("copies (-want +got):\n%s", diff)
	}
	if len(remarks) != 2 || !strings.HasPrefix(remarks["prices.csv"], "no marked copy: only .xlsx") ||
		!strings.HasPrefix(remarks["half.xlsx"], "no marked copy: it cannot be opened") {
		t.Errorf("remarks: %v", remarks)
	}
	a.config.Limits.FileTime = time.Nanosecond // whatever is made now fails
	if names, _ := pass(); !cmp.Equal(want, names) {
		t.Errorf("the second pass has %v", names)
	}
	problems[0].Message = "something else"
	if names, remarks := pass(); len(names) != 0 || remarks["bench/PW-46.xlsx"] != "no marked copy: marking it took too long" {
		t.Errorf("with another finding: %v, %v", names, remarks)
	}
	// What failed is not tried again of the same.
	a.config.Limits.FileTime = time.Minute
	if names, remarks := pass(); len(names) != 0 || remarks["bench/PW-46.xlsx"] != "no marked copy: marking it took too long" {
		t.Errorf("tried again: %v, %v", names, remarks)
	}
}

// remembered is what was laid out, in memory. It knows of no file.
type remembered map[string]cache.Output

func (r remembered) Whole(string, string) bool { return false }

func (r remembered) FoundWhole(string, string) {}

func (r remembered) Made(name string) (cache.Output, bool) {
	o, ok := r[name]
	return o, ok
}

func (r remembered) Make(o cache.Output) { r[o.Name] = o }
