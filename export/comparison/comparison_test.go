package comparison_test

import (
	"slices"
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/comparison"
)

func written(t *testing.T, c compare.Comparison, o comparison.Options) []byte {
	t.Helper()
	out, err := comparison.Write(c, o)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

var up = comparison.Options{Up: "../"}

// few is the sample cut to three ranked heads, to keep the dumps readable.
func few() compare.Comparison {
	c := sample()
	c.Ranked = []compare.Entry{c.Ranked[0], c.Ranked[2], c.Ranked[5]}
	return c
}

func TestSheetsAsKept(t *testing.T) {
	booktest.Golden(t, "testdata/few", booktest.Dump(t, written(t, few(), up)))
}

// odd comparisons are those in which something is missing.
func odd() map[string]compare.Comparison {
	empty := compare.Comparison{Family: family(), Rules: head.DefaultRules(), Shop: "Saltmarsh", Date: day}
	lone := few()
	lone.Ranked, lone.BelowLine, lone.NotRanked, lone.Advertised, lone.Gaps, lone.Suppliers = lone.Ranked[:1], nil, nil, nil, nil, nil
	bare := few()
	bare.Family.Anchors, bare.Worth = head.Anchors{}, compare.Worth{Origin: "not known"}
	bare.Family.Worth = source.Stated[quantity.Money]{}
	for i := range bare.Ranked {
		e := &bare.Ranked[i]
		e.Exhaust, e.Dimensions, e.Stock, e.Cost = nil, nil, nil, compare.Cost{Missing: "no price"}
		e.Value, e.PerCFM, e.PerExtra, e.TiePrice, e.Place, e.BestBuy = compare.Maybe{}, compare.Maybe{}, compare.Maybe{}, compare.Maybe{}, compare.Place{}, nil
		e.Shape, e.Air = compare.Shape{Why: "no anchors"}, compare.Air{}
	}
	bare.Unpriced, bare.Ranked, bare.Frontier = bare.Ranked, nil, nil
	return map[string]compare.Comparison{"no heads": empty, "one head": lone, "flow and nothing else": bare}
}

func TestOddComparisons(t *testing.T) {
	for name, c := range odd() {
		t.Run(name, func(t *testing.T) {
			out := written(t, c, up)
			if _, ok, edited, err := book.Identity(out); !ok || edited || err != nil {
				t.Errorf("ok %v, edited %v, %v", ok, edited, err)
			}
			booktest.SameResults(t, out, booktest.Resave(t, out))
		})
	}
}

func TestSameComparisonSameCells(t *testing.T) {
	var prints []string
	for range 3 {
		cells, err := book.Cells(written(t, sample(), up))
		if err != nil {
			t.Fatal(err)
		}
		prints = append(prints, book.Fingerprint(cells))
	}
	if prints[0] != prints[1] || prints[1] != prints[2] {
		t.Errorf("the same comparison gave different cells: %v", prints)
	}
}

func TestRankingKeepsTheOrder(t *testing.T) {
	c := sample()
	f := booktest.Open(t, written(t, c, up))
	rows, err := f.GetRows("Ranking")
	if err != nil {
		t.Fatal(err)
	}
	top := slices.IndexFunc(rows, func(r []string) bool { return len(r) > 1 && r[0] == "Place" }) + 1
	for i, e := range c.Ranked {
		if got := rows[top+i][1]; got != e.Label {
			t.Errorf("row %d is %s, want %s", i+1, got, e.Label)
		}
	}
	merged, err := f.GetMergeCells("Ranking")
	if err != nil || len(merged) > 0 {
		t.Errorf("merged cells %v in a sheet that is sorted, %v", merged, err)
	}
}

// TestEveryValueHasASource counts the rows of Sources against the readings.
func TestEveryValueHasASource(t *testing.T) {
	c := sample()
	readings := 0
	for _, group := range [][]compare.Entry{c.Ranked, c.BelowLine, c.Advertised} {
		for _, e := range group {
			readings += len(e.Intake.Points) + len(e.Exhaust.Points)
		}
	}
	readings += len(c.NotRanked[0].Entry.Intake.Points) + len(c.NotRanked[0].Entry.Exhaust.Points)
	f := booktest.Open(t, written(t, c, up))
	rows, err := f.GetRows("Sources")
	if err != nil {
		t.Fatal(err)
	}
	found, linked := 0, 0
	for i, r := range rows {
		if len(r) < 11 || r[3] != "flow" {
			continue
		}
		found++
		if ok, target, _ := f.GetCellHyperLink("Sources", book.CellName(i+1, 11)); ok && strings.HasPrefix(target, "../bench/") && strings.Contains(target, "#'Sheet 1'!") {
			linked++
		}
	}
	if found != readings || linked != readings {
		t.Errorf("%d readings in the curves, %d in Sources, %d with a link to their cell", readings, found, linked)
	}
}

func TestNobodysTextBecomesAFormula(t *testing.T) {
	cells, err := book.Cells(written(t, sample(), up))
	if err != nil {
		t.Fatal(err)
	}
	seen := false
	for _, c := range cells {
		if strings.Contains(c.Formula, "HYPERLINK") {
			t.Errorf("%s!%s runs a tester's text: =%s", c.Sheet, c.Cell, c.Formula)
		}
		seen = seen || strings.HasPrefix(c.Value, "=HYPERLINK")
	}
	if !seen {
		t.Error("the tester's text is nowhere")
	}
}

// TestStoredResults lets LibreOffice work every formula out again.
func TestStoredResults(t *testing.T) {
	out := written(t, sample(), up)
	if n := booktest.SameResults(t, out, booktest.Resave(t, out)); n < 200 {
		t.Errorf("only %d formulas; the live sheets hold more", n)
	}
}

// TestDropDowns chooses other heads in the yellow cells and lets LibreOffice
// work the sheets out: they must say what a book opened with those heads says.
func TestDropDowns(t *testing.T) {
	original := written(t, sample(), up)
	for _, pick := range [][3]string{
		{"OB-4", "LKC-07", "LKC-12"},
		{"LKC-12", "VR-81", "OB-4"},
		{"PW-46", "TD-8", "PW-46"},
		{"VR-84", "VR-84", "TD-8"},
	} {
		t.Run(strings.Join(pick[:], ","), func(t *testing.T) {
			changed := booktest.With(t, original, "Side by side", map[string]string{"B5": pick[0], "C5": pick[1]})
			changed = booktest.With(t, changed, "Flow", map[string]string{"B5": pick[2]})
			want := written(t, sample(), comparison.Options{Up: "../", Pair: [2]string{pick[0], pick[1]}, FlowOf: pick[2]})
			booktest.SameResults(t, want, booktest.Resave(t, changed))
		})
	}
}

func TestOnPaper(t *testing.T) {
	paper := booktest.Print(t, written(t, sample(), up))
	if strings.Contains(paper.Text, "###") {
		t.Error("a figure does not fit its column and prints as ###")
	}
	want := map[string]int{
		"Summary": 1, "Ranking": 1, "Side by side": 1, "Flow": 2, "Curves": 3, "Shape": 1, "Value": 1, "Engine": 1,
		"Why": 1, "Lift by lift": 1, "Best buy": 1, "Advertised v tested": 1, "Suppliers": 1, "Not ranked": 1, "Method": 3,
	}
	for sheet, pages := range want {
		if paper.Pages[sheet] != pages {
			t.Errorf("%s prints on %d pages, want %d", sheet, paper.Pages[sheet], pages)
		}
	}
	for _, sheet := range []string{"Sources", "Data"} {
		if paper.Pages[sheet] == 0 {
			t.Errorf("%s does not print", sheet)
		}
	}
}

func TestEverySheetIsOnePageWide(t *testing.T) {
	f := booktest.Open(t, written(t, sample(), up))
	for _, sheet := range f.GetSheetList() {
		layout, err := f.GetPageLayout(sheet)
		if err != nil {
			t.Fatal(err)
		}
		props, err := f.GetSheetProps(sheet)
		if err != nil {
			t.Fatal(err)
		}
		if *layout.FitToWidth != 1 || !*props.FitToPage {
			t.Errorf("%s: %d pages wide, fit %v", sheet, *layout.FitToWidth, *props.FitToPage)
		}
	}
}

func TestOpenPyXL(t *testing.T) {
	out := written(t, sample(), up)
	cells, err := book.Cells(out)
	if err != nil {
		t.Fatal(err)
	}
	filled, blankResults := map[string]int{}, map[string]bool{}
	for _, c := range cells {
		filled[c.Sheet]++
		if c.Formula != "" && c.Value == "" {
			blankResults[c.Sheet+c.Cell] = true
		}
	}
	charts := map[string]int{"Curves": 4}
	for _, s := range booktest.OpenPyXL(t, out) {
		if s.Filled != filled[s.Name] {
			t.Errorf("%s: openpyxl sees %d cells, we wrote %d", s.Name, s.Filled, filled[s.Name])
		}
		empty := 0
		for _, cell := range s.Empty {
			if !blankResults[s.Name+cell] {
				t.Errorf("%s!%s: a formula without its result", s.Name, cell)
			}
			empty++
		}
		if s.Streaming != s.Filled-empty {
			t.Errorf("%s: streaming sees %d of %d cells", s.Name, s.Streaming, s.Filled-empty)
		}
		if s.Charts != charts[s.Name] {
			t.Errorf("%s: %d charts, want %d", s.Name, s.Charts, charts[s.Name])
		}
	}
}
