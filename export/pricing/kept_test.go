package pricing_test

import (
	"os"
	"testing"
	"time"

	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/pricing"
	"flowshelf/export/publish"
)

// TestWhatWasTypedOutlivesThePass types into the published what-if and publishes
// again: the typed version stands beside under its date, ours holds the typed
// figure, and a third pass changes nothing.
func TestWhatWasTypedOutlivesThePass(t *testing.T) {
	const family = "Opposed Four"
	s := sheets(t)[family]
	root, err := os.OpenRoot(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	p := publish.New(publish.Options{})
	name := pricing.FileName(family)
	pass := func() publish.Outcome {
		t.Helper()
		sheet := s
		if old, err := root.ReadFile(name); err == nil {
			sheet = s.Apply(typedIn(t, old, family))
		}
		p.Open(root, time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC))
		return p.Publish(t.Context(), publish.Document{Name: name, Content: written(t, sheet)})
	}
	sellOf := func(name string) string {
		t.Helper()
		content, err := root.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		cell := inputs(t, content)("LKC-90", "Sell a set")
		cells, err := book.Cells(content)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range cells {
			if c.Sheet == "Pricing" && c.Cell == cell {
				return c.Value
			}
		}
		return ""
	}

	if out := pass(); out.State != publish.Written || out.Kept != "" {
		t.Fatalf("%+v", out)
	}
	content, err := root.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	typed := booktest.Typed(t, content, "Pricing", map[string]any{inputs(t, content)("LKC-90", "Sell a set"): 977.5})
	if err := root.WriteFile(name, typed, 0o600); err != nil {
		t.Fatal(err)
	}
	out := pass()
	if out.State != publish.Written || out.Kept != "Pricing - Opposed Four (kept 2026-03-16).xlsx" {
		t.Fatalf("%+v", out)
	}
	for _, name := range []string{name, out.Kept} {
		if got := sellOf(name); got != "977.5" {
			t.Errorf("%s: the typed price is %q", name, got)
		}
	}
	if out := pass(); out.State != publish.Unchanged {
		t.Errorf("%+v", out)
	}
}
