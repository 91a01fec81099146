package comparison_test

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/export/book/booktest"
)

// equipped is the demonstration's Small Eight with a cam, a target power, an
// isentropic law, an untested head and no own test of PW-33.
func equipped() compare.Comparison {
	r, s, date := comparetest.SmallEight()
	f := &s.Families[0]
	f.CamLobe, f.RockerRatio = source.Say(quantity.Inches(.370), source.Trace{}), source.Say(1.6, source.Trace{})
	f.CamDuration, f.TargetPower = source.Say(242.0, source.Trace{}), source.Say(450.0, source.Trace{})
	s.Rules.PressureLaw, s.Rules.EstimateBore = head.Isentropic, head.MayEstimate
	s.Heads = append(s.Heads, head.Listed{Name: "PW-35", Family: "Small Eight", Supplier: "Pellworth Foundry"})
	for _, t := range slices.Clone(r.Tests) {
		if t.Head == "PW-31" && t.Class == head.Advertised {
			t.Head = "PW-35"
			r.Tests = append(r.Tests, t)
		}
	}
	r.Tests = slices.DeleteFunc(r.Tests, func(t head.Test) bool { return t.Head == "PW-33" && t.Class != head.Supplier })
	return compare.All(r, s, date)[0]
}

// cellBeside returns the cell of a row that holds a label in its first column,
// under a title, looking down from the title's row.
func cellBeside(t *testing.T, f *excelize.File, sheet, label, title string) string {
	t.Helper()
	rows, err := f.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	col := -1
	for _, r := range rows {
		if i := slices.Index(r, title); i >= 0 {
			col = i
		} else if col >= 0 && len(r) > 0 && r[0] == label {
			if col < len(r) {
				return r[col]
			}
			return ""
		}
	}
	t.Fatalf("%s: no row %q under %q", sheet, label, title)
	return ""
}

func TestBesideTheRanking(t *testing.T) {
	out := written(t, equipped(), up)
	if dir := os.Getenv("SCRATCH_DEMO"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, "equipped.xlsx"), out, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	f := booktest.Open(t, out)
	for _, c := range []struct{ sheet, label, title, want string }{
		{"Engine", "LKC-07", "At the engine's rpm", "in the band where breathing falls off"},
		{"Engine", "LKC-07", "Against the flow wanted", "within what is wanted"},
		{"Engine", "OB-4", "Valve stem", "0.082 g lighter a mm of stem than LKC-07's, computed for steel"},
		{"Shape", "OB-4", "More cam wasted past, in", "can't say"},
	} {
		if got := cellBeside(t, f, c.sheet, c.label, c.title); got != c.want {
			t.Errorf("%s, %s, %s: %q, want %q", c.sheet, c.label, c.title, got, c.want)
		}
	}
	const digits = 0.005 // the figures below are given to two
	for _, c := range []struct {
		sheet, label, title string
		want                float64
	}{
		{"Engine", "LKC-12", "Inlet Mach index", 0.49},
		{"Engine", "LKC-12", "rpm at index .5", 6650},
		{"Engine", "PW-31", "E/I no pipe", 0.71},
		{"Shape", "LKC-12", "More cam wasted past, in", 0.50},
		{"Lift by lift", "LKC-12", "While open", 198.06},
		{"Value", "LKC-12", "Markup on the landed cost", 0.38},
		{"Best buy", "LKC-12", "± a cfm", 1.63},
		{"Best buy", "VR-84 + valve job", "Gain that breaks even, cfm", 20.87},
	} {
		got, err := strconv.ParseFloat(cellBeside(t, f, c.sheet, c.label, c.title), 64)
		if err != nil || math.Abs(got-c.want) > digits {
			t.Errorf("%s, %s, %s: %v, want %v, %v", c.sheet, c.label, c.title, got, c.want, err)
		}
	}
	cells := booktest.Dump(t, out)
	all := ""
	for _, sheet := range cells {
		all += sheet
	}
	for _, words := range []string{
		"Flow is not power",
		"flagged",
		"as a nozzle in compressible flow",
		"indicative, fewer than three heads",
		"The weakest part",
		"estimated from 4.125",
		"LKC-12 stays first up to a sell price of",
		"on our bench by the record of Pellworth Foundry",
	} {
		if !strings.Contains(all, words) {
			t.Errorf("nowhere in the book: %q", words)
		}
	}
}

func TestWarningOnTheSummary(t *testing.T) {
	c := few()
	c.Summary.Warnings = []string{"The choice of average matters for LKC-12 and PW-33: it does."}
	rows, err := booktest.Open(t, written(t, c, up)).GetRows("Summary")
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(rows, func(r []string) bool {
		return len(r) > 1 && r[0] == "Warning" && r[1] == c.Summary.Warnings[0]
	}) {
		t.Errorf("the warning is not on the summary")
	}
}
