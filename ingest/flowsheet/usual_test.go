package flowsheet_test

import (
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// TestUsualOfTheBench holds that what the setup says of a bench stands in where its
// sheets say nothing, is told with the setup's cell, and never goes against a sheet.
func TestUsualOfTheBench(t *testing.T) {
	in := func(cell string) source.Trace {
		return source.Trace{At: source.Ref{File: "Shop setup.xlsx", Sheet: "Benches", Cell: cell}}
	}
	bench := head.Bench{Name: "Shop bench", Owner: "own", Own: true, Folder: "bench", Entry: source.Say("clay radius", in("D5")),
		Pipe: source.Say("1-3/4 x 12 in", in("E5")), Fixtures: source.Say([]quantity.Length{quantity.Inches(4.03)}, in("F5"))}
	bare := bench
	bare.Pipe = source.Say("none", in("E5"))
	supplier := bench
	supplier.Own, supplier.Owner, supplier.Folder, supplier.Name = false, "Pellworth", "", "Pellworth room"
	const body = "\nLift | Int | Exh\n.200 | 141 | 99\n.300 | 203 | 141\n.400 | 250 | 170\n"
	for _, tt := range []struct {
		name, path, lines string
		bench             head.Bench
		entry             string
		pipe              head.Pipe
		bore              float64
		told              string
	}{
		{"silent", "bench/a.xlsx", "OB-4, 28 inH2O, cfm", bench, "clay radius (setup)", head.WithPipe, 4.03, "bore-by-setup entry-by-setup pipe-by-setup"},
		{"a bench without a pipe", "bench/a.xlsx", "OB-4, 28 inH2O, cfm", bare, "clay radius (setup)", head.WithoutPipe, 4.03, "bore-by-setup entry-by-setup pipe-by-setup"},
		{"the sheet says", "bench/a.xlsx", "OB-4, 4.030 bore, 28 inH2O, cfm, radius plate, no pipe", bench, "radius plate", head.WithoutPipe, 4.03, ""},
		{"another fixture", "bench/a.xlsx", "OB-4, 4.250 bore, 28 inH2O, cfm, radius plate, with pipe", bench, "radius plate", head.WithPipe, 4.25, "bore-without-fixture"},
		{"somebody else's sheet", "a.xlsx", "Pellworth, OB-4, advertised, 28 inH2O, cfm", bench, "", head.PipeNotStated, 0, ""},
		{"another bench's", "bench/a.xlsx", "OB-4, 4.030 bore, 28 inH2O, cfm, flowed in-house", supplier, "", head.PipeNotStated, 4.03, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			path, shop, book := fixture(t, txtar.Parse([]byte("path: "+tt.path+"\n-- tab Sheet1 --\n"+tt.lines+body)))
			shop.Benches = []head.Bench{tt.bench}
			got := readAnswered(path, book, shop, nil)
			if len(got.Tests) != 2 {
				t.Fatalf("%d tests", len(got.Tests))
			}
			in, ex := got.Tests[0], got.Tests[1]
			if in.Entry != tt.entry || ex.Pipe != tt.pipe || in.Bore.Value != quantity.Inches(tt.bore) {
				t.Errorf("entry %q, %s, bore %v", in.Entry, ex.Pipe, in.Bore.Value.In())
			}
			var told []string
			for _, p := range got.Problems.Sorted() {
				if strings.HasSuffix(p.Kind, "-by-setup") || p.Kind == "bore-without-fixture" {
					told = append(told, p.Kind)
					if !strings.Contains(p.Message, `"Benches", cell `) {
						t.Errorf("%s does not name the setup's cell: %s", p.Kind, p.Message)
					}
				}
			}
			if strings.Join(told, " ") != tt.told {
				t.Errorf("told %v, want %q", told, tt.told)
			}
			if tt.told != "" && ex.Pipe == head.WithPipe && tt.entry == "clay radius (setup)" && ex.PipeAt.At.Cell != "E5" {
				t.Errorf("the pipe comes from %v", ex.PipeAt)
			}
		})
	}
}
