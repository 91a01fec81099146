package pricing_test

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"os"
	"testing"
	"time"

	analysis "flowshelf/analysis/pricing"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/pricing"
	"flowshelf/export/publish"
)

// shelf is an output folder with the what-if of one family in it.
type shelf struct {
	*testing.T
	root  *os.Root
	p     *publish.Publisher
	sheet analysis.Sheet
	day   int
}

const fours = "Opposed Four"

func newShelf(t *testing.T) *shelf {
	t.Helper()
	root, err := os.OpenRoot(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = root.Close() })
	return &shelf{t, root, publish.New(publish.Options{}), sheets(t)[fours], 16}
}

// pass does as the service does: it reads what was typed, lays the workbook out
// and publishes it, saying which version it holds.
func (s *shelf) pass() publish.Outcome {
	s.Helper()
	doc, sheet := publish.Document{Name: pricing.FileName(fours)}, s.sheet
	if old, err := s.root.ReadFile(doc.Name); err == nil {
		earlier, ours, err := pricing.Read(old, fours)
		if err != nil || !ours {
			s.Fatalf("ours %v, %v", ours, err)
		}
		sum := sha256.Sum256(old)
		doc.Read = []string{hex.EncodeToString(sum[:])}
		if earlier.Whole {
			doc.Carried = doc.Read
		}
		sheet = s.sheet.Apply(earlier.Typed)
	}
	doc.Content = written(s.T, sheet)
	return s.publish(doc)
}

func (s *shelf) publish(doc publish.Document) publish.Outcome {
	s.p.Open(s.root, time.Date(2026, 3, s.day, 0, 0, 0, 0, time.UTC))
	return s.p.Publish(s.Context(), doc)
}

func (s *shelf) content() []byte {
	s.Helper()
	content, err := s.root.ReadFile(pricing.FileName(fours))
	if err != nil {
		s.Fatal(err)
	}
	return content
}

// typeIn lets a person type into cells of the sheet Pricing and save.
func (s *shelf) typeIn(cells map[string]any) []byte {
	s.Helper()
	edited := booktest.Typed(s.T, s.content(), "Pricing", cells)
	s.put(edited)
	return edited
}

func (s *shelf) put(content []byte) {
	s.Helper()
	if err := s.root.WriteFile(pricing.FileName(fours), content, 0o600); err != nil {
		s.Fatal(err)
	}
}

// sell is the sell price of LKC-90 as the workbook of a name has it.
func (s *shelf) sell(name string) string {
	s.Helper()
	content, err := s.root.ReadFile(name)
	if err != nil {
		s.Fatal(err)
	}
	at := s.cell(content)
	cells, err := book.Cells(content)
	if err != nil {
		s.Fatal(err)
	}
	for _, c := range cells {
		if c.Sheet == "Pricing" && c.Cell == at {
			return c.Value
		}
	}
	return ""
}

func (s *shelf) cell(content []byte) string {
	s.Helper()
	return inputs(s.T, content)("LKC-90", "Sell a set")
}

// want holds the outcome and the number of files in the folder.
func (s *shelf) want(out publish.Outcome, state publish.State, kept string, files int) {
	s.Helper()
	entries, err := fs.ReadDir(s.root.FS(), ".")
	if err != nil {
		s.Fatal(err)
	}
	if out.State != state || out.Kept != kept || len(entries) != files {
		s.Errorf("%+v with %d files, want %s, kept %q, %d files", out, len(entries), state, kept, files)
	}
}

// TestWhatWasTypedOutlivesThePass types into the published what-if and publishes
// again, as it is and as LibreOffice saves it: ours holds the typed figure,
// nothing is kept beside it, and a third pass changes nothing.
func TestWhatWasTypedOutlivesThePass(t *testing.T) {
	for name, save := range map[string]func(*testing.T, []byte) []byte{
		"as it is": func(_ *testing.T, b []byte) []byte { return b }, "saved by LibreOffice": booktest.Resave,
	} {
		t.Run(name, func(t *testing.T) {
			s := newShelf(t)
			s.want(s.pass(), publish.Written, "", 1)
			edited := booktest.Typed(t, s.content(), "Pricing", map[string]any{s.cell(s.content()): 977.5, "B9": "ends in 9"})
			s.put(save(t, edited))
			s.want(s.pass(), publish.Written, "", 1)
			if got := s.sell(pricing.FileName(fours)); got != "977.5" {
				t.Errorf("the typed price is %q", got)
			}
			s.want(s.pass(), publish.Unchanged, "", 1)
			s.day++
			s.want(s.pass(), publish.Unchanged, "", 1)
		})
	}
}

// TestOtherEditsAreKeptOnce changes what is not carried over: a word in a yellow
// cell, a figure below nothing, a formula, a locked cell. Each distinct version
// is kept once, also when it comes back on another day; the figures typed beside
// it are carried over all the same.
func TestOtherEditsAreKeptOnce(t *testing.T) {
	for name, edit := range map[string]map[string]any{
		"a word in a yellow cell": {"B6": "ask JT"}, "less than nothing": {"B6": -1.5}, "a locked cell": {"A1": "scribbled"}, "a cell outside": {"AC40": "note"},
	} {
		t.Run(name, func(t *testing.T) {
			s := newShelf(t)
			s.pass()
			edit[s.cell(s.content())] = 955.0
			edited := s.typeIn(edit)
			const kept = "Pricing - Opposed Four (kept 2026-03-16).xlsx"
			s.want(s.pass(), publish.Written, kept, 2)
			if a, b := s.sell(kept), s.sell(pricing.FileName(fours)); a != "955" || b != "955" {
				t.Errorf("the typed price is %q in the kept version and %q in ours", a, b)
			}
			s.want(s.pass(), publish.Unchanged, "", 2)
			s.day++
			s.put(edited)
			s.want(s.pass(), publish.Written, kept, 2)
			s.put(booktest.Resave(t, edited))
			s.want(s.pass(), publish.Written, kept, 2)
			s.typeIn(map[string]any{"A2": "another scribble"})
			s.want(s.pass(), publish.Written, "Pricing - Opposed Four (kept 2026-03-17).xlsx", 3)
		})
	}
}

// TestTypedWhileThePassRuns saves a figure after the service has read the
// workbook: it stays until the next pass has read it.
func TestTypedWhileThePassRuns(t *testing.T) {
	s := newShelf(t)
	s.pass()
	sum := sha256.Sum256(s.content())
	read := hex.EncodeToString(sum[:])
	late := publish.Document{Name: pricing.FileName(fours), Read: []string{read}, Carried: []string{read}}
	s.sheet.Typed.Margin = s.sheet.Start.Labour // anything that makes another workbook
	late.Content = written(t, s.sheet)
	s.typeIn(map[string]any{s.cell(s.content()): 961.0})
	s.want(s.publish(late), publish.Blocked, "", 1)
	if got := s.sell(pricing.FileName(fours)); got != "961" {
		t.Errorf("the price typed meanwhile is %q", got)
	}
	s.want(s.pass(), publish.Written, "", 1)
	if got := s.sell(pricing.FileName(fours)); got != "961" {
		t.Errorf("after the next pass it is %q", got)
	}
}
