// Package accuracy_test measures how many readings of generated flow sheets are
// read right, asked about, missed, or, what must never happen, used wrongly.
// The sheets are composed by make.py from the ways shops and suppliers write
// them; no reader had a part in it.
//
//	go test ./testdata/accuracy -accuracy.n 2000 -v
package accuracy_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
)

var (
	sheets    = flag.Int("accuracy.n", 300, "how many flow sheets to generate")
	seed      = flag.Int("accuracy.seed", 1, "what the sheets are drawn from")
	others    = flag.Int("accuracy.other", 150, "how many workbooks of other trades to generate")
	keep      = flag.String("accuracy.keep", "", "folder to keep the generated files in")
	findings  = flag.String("accuracy.findings", "", "file to write the failures to, with the sheets beside it")
	onlyShape = flag.String("accuracy.shape", "", "only shapes whose name starts so")
)

// What the reading must reach.
const (
	wantShare      = 0.98 // of all readings whose sheet states what is needed
	wantShapeShare = 0.90 // of those of any one shape
	wantLost       = 0.02 // right readings that may have lost a stated circumstance
)

// shop is what the reader is told beforehand: the shop's own bench, whose books
// lie in the folder "bench", has scales that are linear in flow, and three
// orifices, as ORIFICES in shapes_conditions.py has them.
func shop() head.Shop {
	out := head.Shop{Found: true, Benches: []head.Bench{{
		Name: "SF bench", Owner: "own", Own: true, Scale: head.LinearInFlow, Folder: "bench",
	}}}
	for _, o := range []struct {
		name string
		cfm  float64
	}{{"1.500", 90}, {"2.250", 200}, {"3", 360}} {
		out.Orifices = append(out.Orifices, head.Orifice{Name: o.name, Bench: "SF bench", Flow: source.Say(quantity.CFM(o.cfm), source.Trace{}),
			Drop: source.Say(quantity.InchesOfWater(6), source.Trace{}), Test: source.Say(quantity.InchesOfWater(28), source.Trace{})})
	}
	return out
}

func read(t *testing.T, dir, file string) ingest.FileRead {
	t.Helper()
	content, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(file)))
	if err != nil {
		t.Fatal(err)
	}
	return ingest.ReadFile(t.Context(), file, content, layout.Context{Shop: shop(), Path: file}, decode.Defaults())
}

func TestAccuracy(t *testing.T) {
	dir := *keep
	if dir == "" {
		dir = t.TempDir()
	}
	books := generate(t, dir, *sheets, 0, *seed)
	shapes := map[string]*tally{}
	var order []string
	var log caseLog
	for _, b := range books {
		if b.Kind != "book" {
			continue
		}
		if shapes[b.Shape] == nil {
			shapes[b.Shape] = &tally{shape: b.Shape}
			order = append(order, b.Shape)
		}
		got := read(t, dir, b.File)
		verdicts := judge(b, got)
		shapes[b.Shape].count(b, got, verdicts)
		log.note(b, got, verdicts)
	}
	list, total := inOrder(order, shapes)
	if *onlyShape == "" && total.books != *sheets {
		t.Fatalf("%d sheets generated, want %d", total.books, *sheets)
	}
	t.Logf("reading %d generated flow sheets (seed %d)\n%s", total.books, *seed, table(list, total))
	t.Logf("worst files\n%s", log.worst(20))
	if *findings != "" {
		log.write(t, dir, *findings, table(list, total))
	}
	judgeTotals(t, list, total)
}

func judgeTotals(t *testing.T, list []tally, total tally) {
	t.Helper()
	if n := total.n[silent]; n > 0 {
		t.Errorf("%d readings are silently wrong, want 0", n)
	}
	if s := total.share(); s < wantShare {
		t.Errorf("%.2f %% of the readings are right without a question, want %.0f %%", 100*s, 100*wantShare)
	}
	if n := total.misstated; n > 0 {
		t.Errorf("%d readings have a bore, pipe, mark or entry that their sheet does not state, want 0", n)
	}
	if lost := float64(total.lost) / float64(max(1, total.n[right])); lost > wantLost {
		t.Errorf("%.1f %% of the right readings lost a stated circumstance, want at most %.0f %%", 100*lost, 100*wantLost)
	}
	for _, s := range list {
		if s.share() < wantShapeShare {
			t.Errorf("%s: %.1f %% right without a question, want %.0f %%", s.shape, 100*s.share(), 100*wantShapeShare)
		}
		if s.unasked > 0 {
			t.Errorf("%s: %d of %d sheets leave a needed fact out and nothing was asked", s.shape, s.unasked, s.lacking)
		}
	}
}

// TestOtherTrades reads workbooks that have nothing to do with heads.
func TestOtherTrades(t *testing.T) {
	dir := t.TempDir()
	books := generate(t, dir, 0, *others, *seed)
	if len(books) != *others {
		t.Fatalf("%d books generated, want %d", len(books), *others)
	}
	for _, b := range books {
		got := read(t, dir, b.File)
		r := got.Records
		if n := len(r.Tests) + len(r.Prices) + len(r.Stock); n > 0 || got.Kind == "internal" {
			t.Errorf("%s: %d tests, %d prices, %d stock lines (state %s %s)", b.File, len(r.Tests), len(r.Prices), len(r.Stock), got.State, got.Kind)
		}
	}
}
